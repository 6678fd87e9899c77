#include <algorithm>
#include <unordered_map>

#include "colour/spaces.hpp"
#include "recipe/thickness.hpp"
#include "stash/core.hpp"
#include "stash/makings.hpp"
#include "stash/millionths.hpp"

namespace battwright::stash {
namespace {

constexpr const char* batt_query =
    "SELECT id, name, made_on, recipe, preparation, batts, retained_share, l, a, b, notes, taken_back_on, "
    "(SELECT micrograms FROM off_drum WHERE batt = batt.id ORDER BY off_drum.id DESC LIMIT 1) AS off_drum "
    "FROM batt ";

Batt batt_in(const Statement& row) {
    Batt batt;
    batt.id = row.whole("id");
    Carding& carding = batt.carding;
    carding.name = row.text("name");
    carding.date = row.text("made_on");
    carding.recipe = row.text("recipe");
    carding.preparation = preparation_of(row.text("preparation"));
    carding.batts = static_cast<int>(row.whole("batts"));
    carding.retained_share = row.real("retained_share");
    if (!row.is_null("l")) carding.colour = colour::Lab{row.real("l"), row.real("a"), row.real("b")};
    carding.notes = row.text("notes");
    batt.taken_back_on = row.text("taken_back_on");
    if (const auto weight = row.maybe_whole("off_drum")) batt.off_drum_grams = from_millionths(*weight);
    return batt;
}

constexpr const char* line_query =
    "SELECT batt_line.batt, lot.mark, batt_line.micrograms FROM batt_line JOIN lot ON lot.id = "
    "batt_line.lot ";

void add_line(Batt& batt, const Statement& row) {
    batt.carding.lines.push_back({row.text("mark"), from_millionths(row.whole("micrograms"))});
}

void sum_lines(Batt& batt) {
    std::int64_t sum = 0;
    for (const Line& line : batt.carding.lines) sum += millionths(line.grams);
    batt.fed_grams = from_millionths(sum);
}

}  // namespace

recipe::Preparation preparation_of(std::string_view word) {
    return recipe::parse_preparation(word).value_or(recipe::Preparation::woollen);
}

std::optional<colour::Lab> mixed_colour(std::span<const std::pair<colour::Lab, double>> colours) {
    colour::Xyz sum;
    double weight = 0.0;
    for (const auto& [colour, part] : colours) {
        const colour::Xyz light = colour::xyz_from(colour, colour::srgb_white());
        sum.x += part * light.x;
        sum.y += part * light.y;
        sum.z += part * light.z;
        weight += part;
    }
    if (!(weight > 0.0)) return std::nullopt;
    return colour::lab(colour::Xyz{sum.x / weight, sum.y / weight, sum.z / weight}, colour::srgb_white());
}

Statement rows_asked(const Database& database, std::string query, std::string_view key,
                     std::optional<std::int64_t> only, std::string_view order) {
    if (only) query += "WHERE " + std::string(key) + " = ? ";
    Statement rows = database.prepare(query + "ORDER BY " + std::string(order));
    if (only) rows.bind(*only);
    return rows;
}

std::vector<Batt> read_batts(const Database& database, std::optional<std::int64_t> only) {
    std::vector<Batt> batts;
    std::unordered_map<std::int64_t, std::size_t> at;
    Statement rows = rows_asked(database, batt_query, "id", only, "made_on, id");
    while (rows.step()) {
        batts.push_back(batt_in(rows));
        at[batts.back().id] = batts.size() - 1;
    }
    Statement lines = rows_asked(database, line_query, "batt_line.batt", only, "batt_line.batt, position");
    while (lines.step()) {
        if (const auto found = at.find(lines.whole("batt")); found != at.end())
            add_line(batts[found->second], lines);
    }
    for (Batt& batt : batts) sum_lines(batt);
    return batts;
}

Batt read_batt(const Database& database, std::int64_t id) {
    auto found = read_batts(database, id);
    if (found.empty())
        fail("there is no batt " + std::to_string(id), "look at the list of batts again", "batt");
    return std::move(found.front());
}

Expected<Batt> Stash::batt(std::int64_t id) const {
    return reading(core_->database, [&] { return read_batt(core_->database, id); });
}

Expected<std::vector<Batt>> Stash::batts() const {
    return reading(core_->database, [&] { return read_batts(core_->database); });
}

}  // namespace battwright::stash
