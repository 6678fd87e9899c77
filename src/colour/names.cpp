// Colours by name, declared in colour/names.hpp.
#include "colour/names.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <string>

#include "measure/nearest.hpp"
#include "text/words.hpp"

namespace battwright::colour {
namespace {

struct Named {
    std::string_view name;
    std::uint32_t rgb;
};

// CSS Color Module Level 4 (W3C), section 6.1, which has the names of SVG 1.1. Every "gray" is also a "grey":
// held once, as grey.
// clang-format off
constexpr std::array css_names{
    Named{"aliceblue", 0xf0f8ff},
    Named{"antiquewhite", 0xfaebd7},
    Named{"aqua", 0x00ffff},
    Named{"aquamarine", 0x7fffd4},
    Named{"azure", 0xf0ffff},
    Named{"beige", 0xf5f5dc},
    Named{"bisque", 0xffe4c4},
    Named{"black", 0x000000},
    Named{"blanchedalmond", 0xffebcd},
    Named{"blue", 0x0000ff},
    Named{"blueviolet", 0x8a2be2},
    Named{"brown", 0xa52a2a},
    Named{"burlywood", 0xdeb887},
    Named{"cadetblue", 0x5f9ea0},
    Named{"chartreuse", 0x7fff00},
    Named{"chocolate", 0xd2691e},
    Named{"coral", 0xff7f50},
    Named{"cornflowerblue", 0x6495ed},
    Named{"cornsilk", 0xfff8dc},
    Named{"crimson", 0xdc143c},
    Named{"cyan", 0x00ffff},
    Named{"darkblue", 0x00008b},
    Named{"darkcyan", 0x008b8b},
    Named{"darkgoldenrod", 0xb8860b},
    Named{"darkgreen", 0x006400},
    Named{"darkgrey", 0xa9a9a9},
    Named{"darkkhaki", 0xbdb76b},
    Named{"darkmagenta", 0x8b008b},
    Named{"darkolivegreen", 0x556b2f},
    Named{"darkorange", 0xff8c00},
    Named{"darkorchid", 0x9932cc},
    Named{"darkred", 0x8b0000},
    Named{"darksalmon", 0xe9967a},
    Named{"darkseagreen", 0x8fbc8f},
    Named{"darkslateblue", 0x483d8b},
    Named{"darkslategrey", 0x2f4f4f},
    Named{"darkturquoise", 0x00ced1},
    Named{"darkviolet", 0x9400d3},
    Named{"deeppink", 0xff1493},
    Named{"deepskyblue", 0x00bfff},
    Named{"dimgrey", 0x696969},
    Named{"dodgerblue", 0x1e90ff},
    Named{"firebrick", 0xb22222},
    Named{"floralwhite", 0xfffaf0},
    Named{"forestgreen", 0x228b22},
    Named{"fuchsia", 0xff00ff},
    Named{"gainsboro", 0xdcdcdc},
    Named{"ghostwhite", 0xf8f8ff},
    Named{"gold", 0xffd700},
    Named{"goldenrod", 0xdaa520},
    Named{"green", 0x008000},
    Named{"greenyellow", 0xadff2f},
    Named{"grey", 0x808080},
    Named{"honeydew", 0xf0fff0},
    Named{"hotpink", 0xff69b4},
    Named{"indianred", 0xcd5c5c},
    Named{"indigo", 0x4b0082},
    Named{"ivory", 0xfffff0},
    Named{"khaki", 0xf0e68c},
    Named{"lavender", 0xe6e6fa},
    Named{"lavenderblush", 0xfff0f5},
    Named{"lawngreen", 0x7cfc00},
    Named{"lemonchiffon", 0xfffacd},
    Named{"lightblue", 0xadd8e6},
    Named{"lightcoral", 0xf08080},
    Named{"lightcyan", 0xe0ffff},
    Named{"lightgoldenrodyellow", 0xfafad2},
    Named{"lightgreen", 0x90ee90},
    Named{"lightgrey", 0xd3d3d3},
    Named{"lightpink", 0xffb6c1},
    Named{"lightsalmon", 0xffa07a},
    Named{"lightseagreen", 0x20b2aa},
    Named{"lightskyblue", 0x87cefa},
    Named{"lightslategrey", 0x778899},
    Named{"lightsteelblue", 0xb0c4de},
    Named{"lightyellow", 0xffffe0},
    Named{"lime", 0x00ff00},
    Named{"limegreen", 0x32cd32},
    Named{"linen", 0xfaf0e6},
    Named{"magenta", 0xff00ff},
    Named{"maroon", 0x800000},
    Named{"mediumaquamarine", 0x66cdaa},
    Named{"mediumblue", 0x0000cd},
    Named{"mediumorchid", 0xba55d3},
    Named{"mediumpurple", 0x9370db},
    Named{"mediumseagreen", 0x3cb371},
    Named{"mediumslateblue", 0x7b68ee},
    Named{"mediumspringgreen", 0x00fa9a},
    Named{"mediumturquoise", 0x48d1cc},
    Named{"mediumvioletred", 0xc71585},
    Named{"midnightblue", 0x191970},
    Named{"mintcream", 0xf5fffa},
    Named{"mistyrose", 0xffe4e1},
    Named{"moccasin", 0xffe4b5},
    Named{"navajowhite", 0xffdead},
    Named{"navy", 0x000080},
    Named{"oldlace", 0xfdf5e6},
    Named{"olive", 0x808000},
    Named{"olivedrab", 0x6b8e23},
    Named{"orange", 0xffa500},
    Named{"orangered", 0xff4500},
    Named{"orchid", 0xda70d6},
    Named{"palegoldenrod", 0xeee8aa},
    Named{"palegreen", 0x98fb98},
    Named{"paleturquoise", 0xafeeee},
    Named{"palevioletred", 0xdb7093},
    Named{"papayawhip", 0xffefd5},
    Named{"peachpuff", 0xffdab9},
    Named{"peru", 0xcd853f},
    Named{"pink", 0xffc0cb},
    Named{"plum", 0xdda0dd},
    Named{"powderblue", 0xb0e0e6},
    Named{"purple", 0x800080},
    Named{"rebeccapurple", 0x663399},
    Named{"red", 0xff0000},
    Named{"rosybrown", 0xbc8f8f},
    Named{"royalblue", 0x4169e1},
    Named{"saddlebrown", 0x8b4513},
    Named{"salmon", 0xfa8072},
    Named{"sandybrown", 0xf4a460},
    Named{"seagreen", 0x2e8b57},
    Named{"seashell", 0xfff5ee},
    Named{"sienna", 0xa0522d},
    Named{"silver", 0xc0c0c0},
    Named{"skyblue", 0x87ceeb},
    Named{"slateblue", 0x6a5acd},
    Named{"slategrey", 0x708090},
    Named{"snow", 0xfffafa},
    Named{"springgreen", 0x00ff7f},
    Named{"steelblue", 0x4682b4},
    Named{"tan", 0xd2b48c},
    Named{"teal", 0x008080},
    Named{"thistle", 0xd8bfd8},
    Named{"tomato", 0xff6347},
    Named{"turquoise", 0x40e0d0},
    Named{"violet", 0xee82ee},
    Named{"wheat", 0xf5deb3},
    Named{"white", 0xffffff},
    Named{"whitesmoke", 0xf5f5f5},
    Named{"yellow", 0xffff00},
    Named{"yellowgreen", 0x9acd32},
};
// What that list has no word for: from the survey of 2010 in which 200,000 people named colours (public domain).
constexpr std::array survey_names{
    Named{"amber", 0xfeb308},
    Named{"amethyst", 0x9b5fc0},
    Named{"apricot", 0xffb16d},
    Named{"aubergine", 0x3d0734},
    Named{"auburn", 0x9a3001},
    Named{"avocado", 0x90b134},
    Named{"brick", 0xa03623},
    Named{"bronze", 0xa87900},
    Named{"buff", 0xfef69e},
    Named{"burgundy", 0x610023},
    Named{"burntorange", 0xc04e01},
    Named{"camel", 0xc69f59},
    Named{"caramel", 0xaf6f09},
    Named{"cerise", 0xde0c62},
    Named{"charcoal", 0x343837},
    Named{"cherry", 0xcf0234},
    Named{"chestnut", 0x742802},
    Named{"cinnamon", 0xac4f06},
    Named{"claret", 0x680018},
    Named{"clay", 0xb66a50},
    Named{"cobalt", 0x1e488f},
    Named{"copper", 0xb66325},
    Named{"cranberry", 0x9e003a},
    Named{"cream", 0xffffc2},
    Named{"darkbrown", 0x341c02},
    Named{"darkpink", 0xcb416b},
    Named{"darkpurple", 0x35063e},
    Named{"darkteal", 0x014d4e},
    Named{"darkyellow", 0xd5b60a},
    Named{"denim", 0x3b638c},
    Named{"dustyrose", 0xc0737a},
    Named{"eggplant", 0x380835},
    Named{"emerald", 0x01a049},
    Named{"fawn", 0xcfaf7b},
    Named{"fern", 0x63a950},
    Named{"grape", 0x6c3461},
    Named{"gunmetal", 0x536267},
    Named{"heather", 0xa484ac},
    Named{"jade", 0x1fa774},
    Named{"lemon", 0xfdff52},
    Named{"lightbrown", 0xad8150},
    Named{"lightorange", 0xfdaa48},
    Named{"lightpurple", 0xbf77f6},
    Named{"lightred", 0xff474c},
    Named{"lightteal", 0x90e4c1},
    Named{"lilac", 0xcea2fd},
    Named{"mahogany", 0x4a0100},
    Named{"mauve", 0xae7181},
    Named{"mint", 0x9ffeb0},
    Named{"moss", 0x769958},
    Named{"mulberry", 0x920a4e},
    Named{"mushroom", 0xba9e88},
    Named{"mustard", 0xceb301},
    Named{"navyblue", 0x001146},
    Named{"ochre", 0xbf9005},
    Named{"offwhite", 0xffffe4},
    Named{"olivegreen", 0x677a04},
    Named{"palepink", 0xffcfdc},
    Named{"paleyellow", 0xffff84},
    Named{"peach", 0xffb07c},
    Named{"periwinkle", 0x8e82fe},
    Named{"petrol", 0x005f6a},
    Named{"pine", 0x2b5d34},
    Named{"pumpkin", 0xe17701},
    Named{"raspberry", 0xb00149},
    Named{"rose", 0xcf6275},
    Named{"ruby", 0xca0147},
    Named{"russet", 0xa13905},
    Named{"rust", 0xa83c09},
    Named{"saffron", 0xfeb209},
    Named{"sage", 0x87ae73},
    Named{"sand", 0xe2ca76},
    Named{"sapphire", 0x2138ab},
    Named{"scarlet", 0xbe0119},
    Named{"slate", 0x516572},
    Named{"spruce", 0x0a5f38},
    Named{"steel", 0x738595},
    Named{"stone", 0xada587},
    Named{"straw", 0xfcf679},
    Named{"tangerine", 0xff9408},
    Named{"taupe", 0xb9a281},
    Named{"terracotta", 0xca6641},
    Named{"ultramarine", 0x2000b1},
    Named{"wine", 0x80013f},
    Named{"wisteria", 0xa87dc2},
};
// clang-format on

// "Dark Gray", "dark-grey" and "darkgrey" are one.
std::string plain_name(std::string_view text) {
    std::string name;
    for (const char c : text::trimmed(text))
        if (c != ' ' && c != '-' && c != '_') name += text::lower(c);
    for (std::size_t at = name.find("gray"); at != std::string::npos; at = name.find("gray", at))
        name[at + 2] = 'e';
    return name;
}

template <class Table>
std::optional<Srgb> look_up(const Table& table, std::string_view name) {
    const auto found =
        std::find_if(table.begin(), table.end(), [name](const Named& row) { return row.name == name; });
    if (found == table.end()) return std::nullopt;
    const auto channel = [rgb = found->rgb](unsigned shift) { return ((rgb >> shift) & 0xffu) / 255.0; };
    return Srgb{channel(16), channel(8), channel(0)};
}

}  // namespace

std::vector<std::string> colour_names() {
    std::vector<std::string> names;
    names.reserve(css_names.size() + survey_names.size());
    for (const Named& row : css_names) names.emplace_back(row.name);
    for (const Named& row : survey_names) names.emplace_back(row.name);
    return names;
}

std::optional<Srgb> colour_named(std::string_view name) {
    const std::string plain = plain_name(name);
    const auto found = look_up(css_names, plain);
    return found ? found : look_up(survey_names, plain);
}

measure::Expected<Srgb> parse_colour(std::string_view text) {
    if (const auto named = colour_named(text)) return *named;
    const std::string plain = plain_name(text);
    const bool figures = plain.find_first_not_of("0123456789abcdef") == std::string::npos;
    if (plain.empty() || figures || plain.front() == '#') return parse_hex(text);
    std::string mend = measure::did_you_mean(plain, colour_names());
    if (mend.empty()) mend = "write a name, as in \"dark blue\", or # and six digits, as in \"#2f5d50\"";
    return tl::unexpected(measure::Complaint{"no colour is called " + measure::quoted(text), mend});
}

}  // namespace battwright::colour
