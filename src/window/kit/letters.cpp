#include "window/kit/letters.hpp"

#include <fontconfig/fontconfig.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <memory>
#include <utility>

namespace battwright::window {
namespace {

// What a byte of UTF-8 begins: its own bits, and how many bytes follow.
struct Lead {
    char32_t bits = 0;
    int more = -1;  // no beginning
};
Lead lead_of(unsigned char byte) {
    if (byte < 0x80u) return {byte, 0};
    if (byte >= 0xf0u) return {byte & 0x07u, 3};
    if (byte >= 0xe0u) return {byte & 0x0fu, 2};
    if (byte >= 0xc0u) return {byte & 0x1fu, 1};
    return {};
}

template <class Each>
void each_letter(std::string_view text, const Each& each) {
    for (std::size_t at = 0; at < text.size();) {
        auto [letter, more] = lead_of(static_cast<unsigned char>(text[at++]));
        for (; more > 0 && at < text.size(); --more, ++at)
            letter = letter << 6u | (static_cast<unsigned char>(text[at]) & 0x3fu);
        if (more == 0) each(letter);
    }
}

// The planes above hold nothing ImGui draws, and these are no letters.
bool can_be_drawn(char32_t letter) {
    const bool half = letter >= 0xd800u && letter < 0xe000u, own = letter >= 0xe000u && letter < 0xf900u;
    return letter < 0xfffeu && !half && !own;
}

using Pattern = std::unique_ptr<FcPattern, decltype(&FcPatternDestroy)>;
using CharSet = std::unique_ptr<FcCharSet, decltype(&FcCharSetDestroy)>;
using FontSet = std::unique_ptr<FcFontSet, decltype(&FcFontSetDestroy)>;

// Scalable ones that can be drawn from their file, the nearest first.
FontSet candidates(const std::vector<char16_t>& letters) {
    const CharSet set(FcCharSetCreate(), FcCharSetDestroy);
    for (const char16_t letter : letters) FcCharSetAddChar(set.get(), letter);
    const Pattern pattern(FcPatternCreate(), FcPatternDestroy);
    FcPatternAddCharSet(pattern.get(), FC_CHARSET, set.get());
    FcPatternAddBool(pattern.get(), FC_SCALABLE, FcTrue);
    FcPatternAddString(pattern.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>("sans-serif"));
    FcConfigSubstitute(nullptr, pattern.get(), FcMatchPattern);
    FcDefaultSubstitute(pattern.get());
    FcResult result = FcResultMatch;
    return {FcFontSort(nullptr, pattern.get(), FcTrue, nullptr, &result), FcFontSetDestroy};
}

// Takes out of `missing` what the font holds.
std::vector<char16_t> held_by(FcPattern* font, std::vector<char16_t>& missing) {
    std::vector<char16_t> held;
    FcCharSet* set = nullptr;
    if (FcPatternGetCharSet(font, FC_CHARSET, 0, &set) != FcResultMatch) return held;
    std::erase_if(missing, [&](char16_t letter) {
        if (!FcCharSetHasChar(set, letter)) return false;
        held.push_back(letter);
        return true;
    });
    return held;
}

// Outlines of TrueType or the first CFF; the second CFF is that of variable fonts.
bool is_drawn_by_imgui(FcPattern* font, const std::string& path) {
    FcBool variable = FcFalse;
    FcPatternGetBool(font, FC_VARIABLE, 0, &variable);
    const bool second_cff = variable != FcFalse && !path.ends_with(".ttf");
    if (second_cff || !std::ifstream(path, std::ios::binary)) return false;
    return path.ends_with(".ttf") || path.ends_with(".ttc") || path.ends_with(".otf") ||
           path.ends_with(".otc");
}

}  // namespace

bool is_compiled_in(char32_t letter) {
    constexpr std::array<std::array<char32_t, 2>, 7> ranges{{{0x0000, 0x024f},
                                                             {0x0370, 0x03ff},
                                                             {0x0400, 0x04ff},
                                                             {0x2000, 0x2044},
                                                             {0x2070, 0x209f},
                                                             {0x2150, 0x218f},
                                                             {0x2212, 0x2265}}};
    return std::any_of(ranges.begin(), ranges.end(),
                       [letter](const auto& range) { return letter >= range[0] && letter <= range[1]; });
}

bool Letters::want(std::string_view text) {
    const std::size_t before = wanted_.size();
    each_letter(text, [this](char32_t letter) {
        if (is_compiled_in(letter) || !can_be_drawn(letter) || wanted_.size() >= most_letters) return;
        const auto one = static_cast<char16_t>(letter);
        const auto place = std::lower_bound(wanted_.begin(), wanted_.end(), one);
        if (place == wanted_.end() || *place != one) wanted_.insert(place, one);
    });
    return wanted_.size() != before;
}

std::vector<SystemFont> fonts_for(const std::vector<char16_t>& letters) {
    std::vector<SystemFont> fonts;
    if (letters.empty()) return fonts;
    std::vector<char16_t> missing = letters;
    const FontSet found = candidates(letters);
    for (int i = 0; found && i < found->nfont && !missing.empty(); ++i) {
        FcPattern* font = found->fonts[i];
        FcChar8* file = nullptr;
        int face = 0;
        if (FcPatternGetString(font, FC_FILE, 0, &file) != FcResultMatch) continue;
        FcPatternGetInteger(font, FC_INDEX, 0, &face);
        std::string path(reinterpret_cast<const char*>(file));
        // A face above the lower half is a named instance of a variable font.
        if (!is_drawn_by_imgui(font, path) || face > 0xffff) continue;
        if (auto held = held_by(font, missing); !held.empty())
            fonts.push_back({std::move(path), face, std::move(held)});
    }
    return fonts;
}

}  // namespace battwright::window
