// Inside this room: linear light to the byte of a file, without a power for each.
#pragma once

#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace battwright::strip {

// What `encoded` (light 0..1 to the number in the file, 0..1, never falling) makes of light, rounded to a
// byte: the very bytes it would give. Light is looked up by the first bits of its number; in so small a part
// of its range the byte counts up once at most.
class BytesOfLight {
  public:
    template <class Encoded>
    explicit BytesOfLight(const Encoded& encoded) {
        const auto byte_of = [&encoded](std::uint32_t bits) {
            return static_cast<std::uint8_t>(std::lround(encoded(std::bit_cast<float>(bits)) * 255.0f));
        };
        for (std::size_t i = 0; i < parts; ++i) {
            const std::uint32_t first = i == 0 ? 0u : least + (static_cast<std::uint32_t>(i) << drop);
            const std::uint32_t last = least + ((static_cast<std::uint32_t>(i) + 1u) << drop) - 1u;
            bytes_[i] = byte_of(first);
            // The first number of the part that gets the next byte, by halving; beyond the part if none does.
            std::uint32_t low = first, high = last + 1u;
            while (low < high) {
                const std::uint32_t middle = low + (high - low) / 2u;
                if (byte_of(middle) > bytes_[i])
                    high = middle;
                else
                    low = middle + 1u;
            }
            next_[i] = std::bit_cast<float>(high);
        }
    }
    // Light that can be looked up, and where: apart, so that it can be done for many side by side.
    static float within(float light) {
        const float some = light < 0.0f ? 0.0f : light;
        return 1.0f < some ? 1.0f : some;
    }
    static std::uint32_t part_of(float within) {
        const std::uint32_t bits = std::bit_cast<std::uint32_t>(within);
        return (bits < least ? 0u : bits - least) >> drop;
    }
    std::uint8_t operator()(std::uint32_t part, float within) const {
        return static_cast<std::uint8_t>(bytes_[part] + (within >= next_[part] ? 1 : 0));
    }

  private:
    static constexpr int drop = 15;                        // 256 parts from any number to its double
    static constexpr std::uint32_t least = 114u << 23;     // 2^-13, where the byte is still 0
    static constexpr std::size_t parts = 13u * 256u + 1u;  // up to 1
    std::array<std::uint8_t, parts> bytes_{};
    std::array<float, parts> next_{};
};

}  // namespace battwright::strip
