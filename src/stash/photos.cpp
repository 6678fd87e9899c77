// Photos of batts as rows.
#include <algorithm>
#include <cmath>

#include "measure/units.hpp"
#include "stash/core.hpp"
#include "stash/lots.hpp"
#include "stash/makings.hpp"

namespace battwright::stash {
namespace {

constexpr std::size_t most_sample_bytes = 1'000'000;
constexpr double most_mm_per_pixel = 100.0;
constexpr double least_variation_de00 = 1e-3;
constexpr double most_lab = 1000.0, most_log = 50.0;

constexpr const char* photo_query =
    "SELECT batt_photo.id, batt_photo.batt, batt_photo.name, batt_photo.recipe, batt_photo.made_on, photo, "
    "taken, mm_per_pixel, batt_photo.l, batt_photo.a, batt_photo.b, variation_de00, streak_mm, patches, "
    "unfit, foretold_l, foretold_a, foretold_b, foretold_variation_de00, log_m, log_m_sd, "
    "mixing_level, mixing_slope, mixing_bend, mixing_by_m, mixing_sd, misfit, model, counts, confirmed, "
    "note, "
    "batt.taken_back_on "
    "FROM batt_photo LEFT JOIN batt ON batt.id = batt_photo.batt ";

std::optional<LogFigure> figure_in(const Statement& row, const char* at, const char* sd) {
    if (row.is_null(at) || row.is_null(sd)) return std::nullopt;
    return LogFigure{row.real(at), row.real(sd)};
}

// What was seen is the variation itself.
std::optional<colour::CurvedSighting> curve_in(const Statement& row,
                                               const std::optional<double>& variation_de00) {
    for (const char* column : {"mixing_level", "mixing_slope", "mixing_bend", "mixing_by_m", "mixing_sd"})
        if (row.is_null(column)) return std::nullopt;
    if (!variation_de00) return std::nullopt;
    return colour::CurvedSighting{std::log(std::max(*variation_de00, least_variation_de00)),
                                  row.real("mixing_sd"),
                                  row.real("mixing_level"),
                                  row.real("mixing_slope"),
                                  row.real("mixing_bend"),
                                  row.real("mixing_by_m")};
}

BattPhoto photo_in(const Statement& row) {
    BattPhoto photo;
    photo.id = row.whole("id");
    photo.batt = row.maybe_whole("batt");
    photo.name = row.text("name");
    photo.recipe = row.text("recipe");
    photo.date = row.text("made_on");
    photo.photo = row.text("photo");
    photo.taken = colour::parse_taken(row.text("taken")).value_or(colour::Taken::face);
    photo.mm_per_pixel = row.real("mm_per_pixel");
    photo.seen.mean = {row.real("l"), row.real("a"), row.real("b")};
    photo.seen.variation_de00 = row.maybe_real("variation_de00");
    photo.seen.streak_mm = row.maybe_real("streak_mm");
    photo.seen.patches = static_cast<std::size_t>(std::max<std::int64_t>(0, row.whole("patches")));
    photo.seen.unfit = colour::parse_unfit(row.text("unfit")).value_or(colour::Unfit::no_white);
    photo.foretold = {row.real("foretold_l"), row.real("foretold_a"), row.real("foretold_b")};
    photo.foretold_variation_de00 = row.maybe_real("foretold_variation_de00");
    photo.log_m = figure_in(row, "log_m", "log_m_sd");
    photo.log_mixing = curve_in(row, photo.seen.variation_de00);
    photo.misfit = row.real("misfit");
    photo.model = static_cast<int>(row.whole("model"));
    photo.counts = row.whole("counts") != 0;
    photo.confirmed = row.whole("confirmed") != 0;
    photo.note = row.text("note");
    photo.standing = row.is_null("taken_back_on") || row.bytes("taken_back_on").empty();
    return photo;
}

bool within(double value, double most) {
    return std::isfinite(value) && std::abs(value) <= most;
}

bool is_sd(double value) {
    return within(value, most_log) && value > 0.0;
}

void check_figures(const BattPhoto& photo) {
    const auto refuse = [](const char* what) {
        fail(std::string("the photo's ") + what + " is none", "read the photo again", "photo");
    };
    if (!(photo.mm_per_pixel > 0.0 && photo.mm_per_pixel <= most_mm_per_pixel)) refuse("scale");
    for (const double figure :
         {photo.seen.mean.l, photo.seen.mean.a, photo.seen.mean.b, photo.foretold.l, photo.foretold.a,
          photo.foretold.b, photo.seen.variation_de00.value_or(0.0), photo.seen.streak_mm.value_or(0.0),
          photo.foretold_variation_de00.value_or(0.0), photo.misfit})
        if (!within(figure, most_lab)) refuse("colour");
    if (photo.log_m && !(within(photo.log_m->at, most_log) && is_sd(photo.log_m->sd))) refuse("lesson");
    if (!photo.log_mixing) return;
    const colour::CurvedSighting& curve = *photo.log_mixing;
    for (const double figure : {curve.level, curve.slope, curve.bend, curve.by_other})
        if (!within(figure, most_log)) refuse("lesson");
    if (!is_sd(curve.sd)) refuse("lesson");
}

void insert_photo(Database& database, const BattPhoto& photo) {
    const auto of_m = [&](double LogFigure::*part) {
        return photo.log_m ? std::optional((*photo.log_m).*part) : std::nullopt;
    };
    const auto of_mixing = [&](double colour::CurvedSighting::*part) {
        return photo.log_mixing ? std::optional((*photo.log_mixing).*part) : std::nullopt;
    };
    using Curve = colour::CurvedSighting;
    const std::optional<std::int64_t> id = photo.id != 0 ? std::optional(photo.id) : std::nullopt;
    database.run(
        "INSERT OR REPLACE INTO batt_photo (id, batt, name, recipe, made_on, photo, taken, mm_per_pixel, "
        "l, a, b, variation_de00, streak_mm, patches, unfit, foretold_l, foretold_a, foretold_b, "
        "foretold_variation_de00, log_m, log_m_sd, mixing_level, mixing_slope, mixing_bend, mixing_by_m, "
        "mixing_sd, "
        "misfit, model, counts, confirmed, note) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
        "?, ?, ?)",
        id, photo.batt, photo.name, photo.recipe, photo.date, photo.photo, colour::word_for(photo.taken),
        photo.mm_per_pixel, photo.seen.mean.l, photo.seen.mean.a, photo.seen.mean.b,
        photo.seen.variation_de00, photo.seen.streak_mm, static_cast<std::int64_t>(photo.seen.patches),
        colour::row_for(photo.seen.unfit).word, photo.foretold.l, photo.foretold.a, photo.foretold.b,
        photo.foretold_variation_de00, of_m(&LogFigure::at), of_m(&LogFigure::sd), of_mixing(&Curve::level),
        of_mixing(&Curve::slope), of_mixing(&Curve::bend), of_mixing(&Curve::by_other), of_mixing(&Curve::sd),
        photo.misfit, photo.model, photo.counts, photo.confirmed, photo.note);
}

BattPhoto read_photo(const Database& database, std::int64_t id) {
    Statement row = database.prepare(std::string(photo_query) + "WHERE batt_photo.id = ?");
    if (!row.bind(id).step())
        fail("there is no photo " + std::to_string(id), "look at the list of photos again", "photo");
    return photo_in(row);
}

}  // namespace

void check_photo(const Database& database, const BattPhoto& photo) {
    check_text(photo.name, "name");
    check_text(photo.photo, "photo");
    check_text(photo.note, "note", true);
    check_text(photo.recipe, "recipe", true, most_sample_bytes);
    check_figures(photo);
    if (photo.batt) {
        read_batt(database, *photo.batt);
        return;
    }
    if (photo.recipe.empty())
        fail("nobody knows what the photo is of", "name its batt, or the recipe of the sample", "photo");
}

std::vector<BattPhoto> read_photos(const Database& database) {
    std::vector<BattPhoto> photos;
    Statement rows =
        database.prepare(std::string(photo_query) + "ORDER BY batt_photo.made_on, batt_photo.id");
    while (rows.step()) photos.push_back(photo_in(rows));
    return photos;
}

Expected<BattPhoto> Stash::log(const BattPhoto& photo) {
    return writing(core_->database, [&] {
        check_photo(core_->database, photo);
        BattPhoto made = photo;
        made.id = 0;
        made.date = date_or_today(photo.date);
        if (photo.batt) {
            const Batt batt = read_batt(core_->database, *photo.batt);
            if (!batt.taken_back_on.empty())
                fail("the batt " + measure::quoted(batt.carding.name) + " was taken back",
                     "name the batt that the photo shows", "batt");
            if (made.name.empty()) made.name = batt.carding.name;
        }
        insert_photo(core_->database, made);
        return read_photo(core_->database, core_->database.last_id());
    });
}

Expected<void> Stash::change(const BattPhoto& photo) {
    return writing(core_->database, [&] {
        read_photo(core_->database, photo.id);
        check_photo(core_->database, photo);
        BattPhoto changed = photo;
        changed.date = date_or_today(photo.date);
        insert_photo(core_->database, changed);
    });
}

Expected<void> Stash::remove_photo(std::int64_t id) {
    return writing(core_->database, [&] {
        read_photo(core_->database, id);
        core_->database.run("DELETE FROM batt_photo WHERE id = ?", id);
    });
}

Expected<BattPhoto> Stash::photo(std::int64_t id) const {
    return reading(core_->database, [&] { return read_photo(core_->database, id); });
}

Expected<std::vector<BattPhoto>> Stash::photos() const {
    return reading(core_->database, [&] { return read_photos(core_->database); });
}

Expected<HandsLearnt> Stash::hands(std::string_view until) const {
    return reading(core_->database, [&] {
        const std::string last = last_day(until);
        auto photos = read_photos(core_->database);
        std::erase_if(photos, [&](const BattPhoto& photo) { return photo.date > last; });
        return hands_from(photos);
    });
}

}  // namespace battwright::stash
