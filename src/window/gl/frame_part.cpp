#include "window/gl/frame_part.hpp"

#include <algorithm>
#include <utility>

namespace battwright::window {
namespace {

bool touches(const ImDrawList& list, const ImDrawIdx* corners, unsigned vertex_offset, const ImVec2& from,
             const PixelRect& rect) {
    const auto place = [&](int corner) { return list.VtxBuffer.Data[vertex_offset + corners[corner]].pos; };
    const ImVec2 a = place(0), b = place(1), c = place(2);
    const float left = std::min({a.x, b.x, c.x}) - from.x, right = std::max({a.x, b.x, c.x}) - from.x;
    const float top = std::min({a.y, b.y, c.y}) - from.y, bottom = std::max({a.y, b.y, c.y}) - from.y;
    return left <= static_cast<float>(rect.right) && right >= static_cast<float>(rect.left) &&
           top <= static_cast<float>(rect.bottom) && bottom >= static_cast<float>(rect.top);
}

// Appends to `part` what of a command shows in a rectangle.
void add_command(ImDrawList& part, const ImDrawList& list, const ImDrawCmd& command, const ImVec2& from,
                 const PixelRect& rect) {
    ImDrawCmd cut = command;
    cut.ClipRect = {static_cast<float>(rect.left) + from.x, static_cast<float>(rect.top) + from.y,
                    static_cast<float>(rect.right) + from.x, static_cast<float>(rect.bottom) + from.y};
    cut.IdxOffset = static_cast<unsigned>(part.IdxBuffer.Size);
    const ImDrawIdx* index = list.IdxBuffer.Data + command.IdxOffset;
    for (unsigned i = 0; i + 3 <= command.ElemCount; i += 3, index += 3) {
        if (!touches(list, index, command.VtxOffset, from, rect)) continue;
        for (int corner = 0; corner < 3; ++corner) part.IdxBuffer.push_back(index[corner]);
    }
    cut.ElemCount = static_cast<unsigned>(part.IdxBuffer.Size) - cut.IdxOffset;
    if (cut.ElemCount > 0) part.CmdBuffer.push_back(cut);
}

}  // namespace

FramePart::FramePart(const ImDrawData& frame, const std::vector<PixelRect>& rects) : data_(frame) {
    for (int i = 0; i < frame.CmdListsCount; ++i) {
        const ImDrawList& list = *frame.CmdLists[i];
        auto part = std::make_unique<ImDrawList>(nullptr);
        for (const PixelRect& rect : rects) {
            for (const ImDrawCmd& command : list.CmdBuffer) {
                const PixelRect shown = overlap(clip_of(command, frame), rect);
                if (!shown.empty()) add_command(*part, list, command, frame.DisplayPos, shown);
            }
        }
        if (part->CmdBuffer.empty()) continue;
        part->VtxBuffer = list.VtxBuffer;
        pointers_.push_back(part.get());
        lists_.push_back(std::move(part));
    }
    data_.CmdLists = pointers_.data();
    data_.CmdListsCount = static_cast<int>(pointers_.size());
}

}  // namespace battwright::window
