#include "window/gl/tiles.hpp"

#include <algorithm>
#include <cstring>
#include <utility>

namespace battwright::window {
namespace {

// Eight bytes stirred in by a multiplication and a shift (after MurmurHash's finaliser, Appleby).
std::uint64_t stirred(std::uint64_t print, std::uint64_t eight) {
    print = (print ^ eight) * 0xff51afd7ed558ccdu;
    return print ^ (print >> 32u);
}

template <class Plain>
std::uint64_t stirred_in(std::uint64_t print, const Plain& value) {
    static_assert(sizeof(Plain) <= 8);
    std::uint64_t eight = 0;
    std::memcpy(&eight, &value, sizeof value);
    return stirred(print, eight);
}

constexpr std::uint64_t first_print = 0x9e3779b97f4a7c15u;

std::uint64_t print_of(const ImDrawVert& vertex) {
    return stirred_in(stirred_in(stirred_in(first_print, vertex.pos), vertex.uv), vertex.col);
}

std::uint64_t print_of(const ImDrawCmd& command, const PixelRect& clip) {
    auto print = stirred_in(first_print, command.TextureId);
    for (const int side : {clip.left, clip.top, clip.right, clip.bottom}) print = stirred_in(print, side);
    return print;
}

class Printing {
  public:
    Printing(const ImDrawData& frame, const colour::Srgb& ground)
        : frame_(frame),
          tiles_a_unit_{frame.FramebufferScale.x / tile_px, frame.FramebufferScale.y / tile_px} {
        made_.frame = pixels_of(frame);
        auto print = first_print;
        for (const double channel : {ground.r, ground.g, ground.b}) print = stirred_in(print, channel);
        const int down = (made_.frame.bottom + tile_px - 1) / tile_px;
        made_.prints.assign(static_cast<std::size_t>(made_.across()) * static_cast<std::size_t>(down), print);
    }

    void add(const ImDrawList& list) {
        vertices_.clear();
        for (const ImDrawVert& vertex : list.VtxBuffer) vertices_.push_back(print_of(vertex));
        for (const ImDrawCmd& command : list.CmdBuffer) {
            const PixelRect clip = overlap(clip_of(command, frame_), made_.frame);
            if (!clip.empty()) add(list, command, clip);
        }
    }
    TilePrints take() { return std::move(made_); }

  private:
    void add(const ImDrawList& list, const ImDrawCmd& command, const PixelRect& clip) {
        const auto here = print_of(command, clip);
        const TileSpan most = tiles_of(clip);
        const ImDrawIdx* index = list.IdxBuffer.Data + command.IdxOffset;
        for (unsigned i = 0; i + 3 <= command.ElemCount; i += 3, index += 3) {
            auto print = here;
            TileSpan span{1e30f, 1e30f, -1e30f, -1e30f};
            for (int corner = 0; corner < 3; ++corner) {
                const auto at = command.VtxOffset + index[corner];
                print = stirred(print, vertices_[at]);
                const ImVec2 place = list.VtxBuffer.Data[at].pos;
                const float x = (place.x - frame_.DisplayPos.x) * tiles_a_unit_.x;
                const float y = (place.y - frame_.DisplayPos.y) * tiles_a_unit_.y;
                span = {std::min(span.left, x), std::min(span.top, y), std::max(span.right, x),
                        std::max(span.bottom, y)};
            }
            touch({std::max(most.left, span.left), std::max(most.top, span.top),
                   std::min(most.right, span.right), std::min(most.bottom, span.bottom)},
                  print);
        }
    }
    // In tiles: from the first pixel's edge to the last pixel's middle, where it is decided what covers it.
    struct TileSpan {
        float left, top, right, bottom;
    };
    static TileSpan tiles_of(const PixelRect& clip) {
        constexpr float tile = tile_px;
        return {static_cast<float>(clip.left) / tile, static_cast<float>(clip.top) / tile,
                (static_cast<float>(clip.right) - 0.5f) / tile,
                (static_cast<float>(clip.bottom) - 0.5f) / tile};
    }
    void touch(const TileSpan& span, std::uint64_t print) {
        if (!(span.left <= span.right && span.top <= span.bottom)) return;
        const int left = static_cast<int>(span.left), right = static_cast<int>(span.right);
        const int top = static_cast<int>(span.top), bottom = static_cast<int>(span.bottom);
        for (int y = top; y <= bottom; ++y) {
            for (int x = left; x <= right; ++x) {
                auto& tile =
                    made_.prints[static_cast<std::size_t>(y) * static_cast<std::size_t>(made_.across()) +
                                 static_cast<std::size_t>(x)];
                tile = stirred(tile, print);
            }
        }
    }

    const ImDrawData& frame_;
    ImVec2 tiles_a_unit_;
    TilePrints made_;
    std::vector<std::uint64_t> vertices_;  // of one list
};

// Runs of stale tiles in a row, each put together with the run above it where both are as wide.
std::vector<PixelRect> runs_of(const std::vector<bool>& stale, int across) {
    std::vector<PixelRect> found;
    const int tiles = static_cast<int>(stale.size());
    for (int at = 0; at < tiles;) {
        if (!stale[static_cast<std::size_t>(at)]) {
            ++at;
            continue;
        }
        const int y = at / across, left = at % across;
        while (at < tiles && at / across == y && stale[static_cast<std::size_t>(at)]) ++at;
        const PixelRect run{left, y, at - y * across, y + 1};
        const auto above = std::find_if(found.begin(), found.end(), [&run](const PixelRect& r) {
            return r.bottom == run.top && r.left == run.left && r.right == run.right;
        });
        if (above != found.end())
            above->bottom = run.bottom;
        else
            found.push_back(run);
    }
    return found;
}

}  // namespace

PixelRect overlap(const PixelRect& a, const PixelRect& b) {
    return {std::max(a.left, b.left), std::max(a.top, b.top), std::min(a.right, b.right),
            std::min(a.bottom, b.bottom)};
}

PixelRect around(const PixelRect& a, const PixelRect& b) {
    return {std::min(a.left, b.left), std::min(a.top, b.top), std::max(a.right, b.right),
            std::max(a.bottom, b.bottom)};
}

PixelRect pixels_of(const ImDrawData& frame) {
    return {0, 0, static_cast<int>(frame.DisplaySize.x * frame.FramebufferScale.x),
            static_cast<int>(frame.DisplaySize.y * frame.FramebufferScale.y)};
}

PixelRect clip_of(const ImDrawCmd& command, const ImDrawData& frame) {
    const ImVec2 from = frame.DisplayPos, scale = frame.FramebufferScale;
    const ImVec2 low{(command.ClipRect.x - from.x) * scale.x, (command.ClipRect.y - from.y) * scale.y};
    const ImVec2 high{(command.ClipRect.z - from.x) * scale.x, (command.ClipRect.w - from.y) * scale.y};
    if (!(low.x < high.x && low.y < high.y)) return {};
    // OpenGL counts from below.
    const int height = pixels_of(frame).bottom;
    const int bottom = height - static_cast<int>(static_cast<float>(height) - high.y);
    const int left = static_cast<int>(low.x);
    return {left, bottom - static_cast<int>(high.y - low.y), left + static_cast<int>(high.x - low.x), bottom};
}

TilePrints tile_prints(const ImDrawData& frame, const colour::Srgb& ground) {
    Printing printing(frame, ground);
    for (int i = 0; i < frame.CmdListsCount; ++i) printing.add(*frame.CmdLists[i]);
    return printing.take();
}

bool StaleTiles::see(TilePrints now) {
    if (now == seen_) return false;
    if (now.frame != seen_.frame) {
        stale_.assign(now.prints.size(), true);
    } else {
        for (std::size_t i = 0; i < stale_.size(); ++i)
            stale_[i] = stale_[i] || now.prints[i] != seen_.prints[i];
    }
    seen_ = std::move(now);
    return true;
}

std::vector<PixelRect> StaleTiles::take() {
    auto rects = runs_of(stale_, std::max(1, seen_.across()));
    for (PixelRect& rect : rects)
        rect = overlap({rect.left * tile_px, rect.top * tile_px, rect.right * tile_px, rect.bottom * tile_px},
                       seen_.frame);
    stale_.assign(stale_.size(), false);
    return rects;
}

}  // namespace battwright::window
