// The series of a recipe: read, checked and written.
#include <cmath>

#include "recipe/checking.hpp"
#include "recipe/layout.hpp"
#include "recipe/limits.hpp"
#include "recipe/read.hpp"
#include "recipe/write.hpp"
#include "toml/toml.hpp"

namespace battwright::recipe {
namespace {

constexpr Range series_percent{0.0, 100.0};

enum class Stepping { by_weight, by_eye };
constexpr std::array<measure::Word<Stepping>, 2> steppings{
    {{Stepping::by_weight, "by weight"}, {Stepping::by_eye, "by eye"}}};
static_assert(measure::one_row_each(steppings));

std::string part_field(std::size_t index, const char* key) {
    return "series to " + std::to_string(index + 1) + ' ' + key;
}

void read_count(Reader& reader, const toml::Table& table, Series& series) {
    if (table.get("batts") != nullptr && table.get("rolags") != nullptr)
        reader.complain(*table.get("rolags"), "the series has both batts and rolags", "keep one of the two");
    series.rolags = table.get("rolags") != nullptr;
    const char* key = series.rolags ? "rolags" : "batts";
    if (table.get(key) == nullptr)
        reader.missing(table, "the series does not say how many", "add batts = 6, or rolags = 12");
    series.count = reader.whole_number(table, key, "series count").value_or(series.count);
}

void read_to(Reader& reader, const toml::Table& table, Series& series) {
    const std::string mend = "write to = [ { what = \"foam\", share = \"100 %\" } ]";
    if (table.get("to") == nullptr)
        reader.missing(table, "the series does not say what mixture it ends at", mend);
    const toml::List* list = reader.tables(table, "to", "series to", mend);
    if (list == nullptr) return;
    for (std::size_t i = 0; i < list->size(); ++i) {
        const toml::Table* entry = (*list)[i].table();
        if (entry == nullptr) continue;
        reader.only(*entry, "the series", {"what", "share"});
        for (const char* key : {"what", "share"})
            if (entry->get(key) == nullptr)
                reader.missing(*entry, std::string("the entry has no ") + key, mend);
        SeriesPart part;
        part.what = reader.text(*entry, "what", part_field(i, "what")).value_or("");
        part.share_pct =
            reader.parsed(*entry, "share", part_field(i, "share"), "share = \"60 %\"", measure::parse_percent)
                .value_or(0.0);
        series.to.push_back(std::move(part));
    }
}

}  // namespace

void read_series(Reader& reader, const toml::Table& root, Recipe& recipe) {
    const toml::Table* table = reader.subtable(root, "series", "series");
    if (table == nullptr) return;
    Series series;
    reader.only(*table, "the series", {"batts", "rolags", "each", "to", "steps"});
    read_count(reader, *table, series);
    if (table->get("each") == nullptr)
        reader.missing(*table, "the series does not say what each weighs", "add it, as in each = \"15 g\"");
    series.each = reader.parsed(*table, "each", "series each", "each = \"15 g\"", measure::parse_mass)
                      .value_or(series.each);
    read_to(reader, *table, series);
    const auto steps = reader.parsed(
        *table, "steps", "series steps", "steps = \"by eye\"",
        [](std::string_view text) { return measure::parse_word(steppings, text, "way to step"); });
    series.by_eye = steps == Stepping::by_eye;
    recipe.series = std::move(series);
}

Suspicion bad_series(const Recipe& recipe) {
    if (!recipe.series) return std::nullopt;
    const Series& series = *recipe.series;
    if (auto fault = outside(series.count, {"the number of them", series_count, print_plain}, "series count"))
        return fault;
    if (auto fault =
            outside(series.each.grams, {"the weight of each", weight_grams, print_weight}, "series each"))
        return fault;
    double sum = 0.0;
    for (std::size_t i = 0; i < series.to.size(); ++i) {
        const SeriesPart& part = series.to[i];
        if (auto fault = bad_text(part.what, false, part_field(i, "what"))) return fault;
        const auto what = named(recipe, part.what);
        if (!what || what->is_blend)
            return Fault{"no component is called " + measure::quoted(part.what),
                         "name a component as it stands in the recipe",
                         {part_field(i, "what")}};
        for (std::size_t j = 0; j < i; ++j)
            if (named(recipe, series.to[j].what) == what)
                return Fault{"the series names " + measure::quoted(part.what) + " twice",
                             "add the two shares together",
                             {part_field(i, "what"), part_field(j, "what")}};
        const Figure share{"the share", series_percent, print_percentage};
        if (auto fault = outside(part.share_pct, share, part_field(i, "share"))) return fault;
        sum += part.share_pct;
    }
    if (std::abs(sum - 100.0) <= closing_percent) return std::nullopt;
    return Fault{"the mixture the series ends at comes to " + measure::print_percent(sum) + ", not 100 %",
                 "change a share so that they make 100 %",
                 {"series to"}};
}

void write_series(std::string& out, const Recipe& recipe) {
    if (!recipe.series) return;
    const Series& series = *recipe.series;
    out += "\n[series]\n";
    out += (series.rolags ? "rolags = " : "batts = ") + std::to_string(series.count) + '\n';
    out += "each = " + toml::written(measure::write_mass(series.each)) + '\n';
    if (series.by_eye) out += "steps = \"by eye\"\n";
    out += "to = [\n";
    for (const SeriesPart& part : series.to)
        out += "    { what = " + toml::written(part.what) +
               ", share = " + toml::written(measure::write_percent(part.share_pct)) + " },\n";
    out += "]\n";
}

}  // namespace battwright::recipe
