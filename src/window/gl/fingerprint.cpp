#include "window/gl/fingerprint.hpp"

#include <cstring>

namespace battwright::window {
namespace {

// Eight bytes at a time, each stirred in by a multiplication and a shift (after MurmurHash's finaliser,
// Appleby).
class Fingerprint {
  public:
    void add(const void* bytes, std::size_t size) {
        const auto* at = static_cast<const unsigned char*>(bytes);
        for (; size >= 8; size -= 8, at += 8) add_eight(at, 8);
        if (size > 0) add_eight(at, size);
    }
    template <class Plain>
    void add(const Plain& value) {
        add(&value, sizeof value);
    }
    template <class Plain>
    void add(const ImVector<Plain>& values) {
        add(values.Size);
        add(values.Data, static_cast<std::size_t>(values.Size) * sizeof(Plain));
    }
    std::uint64_t value() const { return value_; }

  private:
    void add_eight(const unsigned char* at, std::size_t size) {
        std::uint64_t eight = 0;
        std::memcpy(&eight, at, size);
        value_ = (value_ ^ eight) * 0xff51afd7ed558ccdu;
        value_ ^= value_ >> 32u;
    }
    std::uint64_t value_ = 0x9e3779b97f4a7c15u;
};

}  // namespace

std::uint64_t fingerprint_of(const ImDrawData& frame, const colour::Srgb& ground) {
    Fingerprint print;
    for (const double channel : {ground.r, ground.g, ground.b}) print.add(channel);
    print.add(frame.DisplaySize);
    print.add(frame.FramebufferScale);
    for (int i = 0; i < frame.CmdListsCount; ++i) {
        const ImDrawList& list = *frame.CmdLists[i];
        print.add(list.VtxBuffer);
        print.add(list.IdxBuffer);
        for (const ImDrawCmd& command : list.CmdBuffer) {
            print.add(command.ClipRect);
            print.add(command.TextureId);
            print.add(command.ElemCount);
        }
    }
    return print.value();
}

}  // namespace battwright::window
