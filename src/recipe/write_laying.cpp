// The layings and small blends of a recipe as TOML.
#include "colour/spaces.hpp"
#include "measure/units.hpp"
#include "recipe/write.hpp"
#include "toml/toml.hpp"

namespace battwright::recipe {
namespace {

using Pairs = std::vector<std::pair<std::string, std::string>>;

Pairs pairs_of(const Laying& laying, bool is_flat) {
    Pairs pairs{{"what", toml::written(laying.what)}};
    const auto add = [&](const char* key, const std::string& text) {
        pairs.emplace_back(key, toml::written(text));
    };
    if (laying.colour) add("colour", colour::hex(*laying.colour));
    if (const auto* mass = std::get_if<measure::Mass>(&laying.amount))
        add("weight", measure::write_mass(*mass));
    if (const auto* percent = std::get_if<Percent>(&laying.amount))
        add("share", measure::write_percent(percent->value));
    if (laying.across != Stretch{}) add("across", write_across(laying.across));
    if (laying.round != Stretch{}) add(is_flat ? "along" : "round", write_round(laying.round));
    if (laying.fade) add("fade", write_extent(*laying.fade));
    if (laying.overlap) add("overlap", write_extent(*laying.overlap));
    if (laying.how != Spreading::even || laying.size) add("how", write_spreading(laying.how, laying.size));
    if (laying.times != 1) pairs.emplace_back("times", std::to_string(laying.times));
    if (laying.pass)
        pairs.emplace_back("pass",
                           *laying.pass == last_pass ? toml::written("last") : std::to_string(*laying.pass));
    if (laying.lies != Lies::between) add("lies", std::string(measure::row_of(lies_words, laying.lies).word));
    if (laying.way) add("way", std::string(measure::row_of(ways, *laying.way).word));
    return pairs;
}

std::string in_one_line(const Laying& laying, bool is_flat) {
    std::string text;
    for (const auto& [key, value] : pairs_of(laying, is_flat))
        text += (text.empty() ? "{ " : ", ") + key + " = " + value;
    return text + " }";
}

void write_blend(std::string& out, const SmallBlend& blend, const Carder& carder) {
    out += "\n[[carding.blend]]\nname = " + toml::written(blend.name) + '\n';
    if (blend.passes != 1) out += "passes = " + std::to_string(blend.passes) + '\n';
    if (blend.strips != SmallBlend{}.strips && carder.kind != ToolKind::hand_cards)
        out += "strips = " + std::to_string(blend.strips) + '\n';
    if (blend.refeeds != SmallBlend{}.refeeds) out += "refeed = " + refeeds_text(blend.refeeds) + '\n';
    out += "lay = [\n";
    for (const Laying& laying : blend.layings) out += "    " + in_one_line(laying, is_flat(carder)) + ",\n";
    out += "]\n";
}

}  // namespace

std::string refeeds_text(const std::vector<Refeed>& refeeds) {
    if (refeeds.size() == 1) return toml::written(std::string(word_for(refeeds.front())));
    std::string text;
    for (const Refeed refeed : refeeds)
        text += (text.empty() ? "[" : ", ") + toml::written(std::string(word_for(refeed)));
    return text + "]";
}

void write_layings(std::string& out, const Carding& carding) {
    const Carder carder = carder_of(carding);
    for (const SmallBlend& blend : carding.blends) write_blend(out, blend, carder);
    for (const Laying& laying : carding.layings) {
        out += "\n[[carding.lay]]\n";
        for (const auto& [key, value] : pairs_of(laying, is_flat(carder))) out += key + " = " + value + '\n';
    }
}

}  // namespace battwright::recipe
