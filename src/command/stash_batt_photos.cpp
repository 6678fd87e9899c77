// Photos of batts: what they show against the forecast, and what they teach of the spinner.
#include <algorithm>
#include <cmath>
#include <filesystem>

#include "colour/spaces.hpp"
#include "command/layout.hpp"
#include "command/recipe_in.hpp"
#include "command/stash_common.hpp"
#include "command/stash_hands.hpp"
#include "command/stash_json.hpp"
#include "command/stash_parts.hpp"
#include "command/stash_photo.hpp"
#include "recipe/file_name.hpp"
#include "shelving/lots.hpp"
#include "shelving/photo.hpp"
#include "strip/photo_file.hpp"

namespace battwright::command {
namespace {

struct BattPhotoOptions : Common {
    std::string batt, recipe, taken = "face", width, name, date, note;
    PhotoOptions photo;
    bool turned = false;
};
struct PhotoEditOptions : Common {
    std::string id, note;
    bool left_out = false, confirmed = false;
};

// How wide and high what counts as fibre lies in the photo, in pixels.
struct Extent {
    double wide = 0.0, high = 0.0;
};
Extent extent_of(const colour::Area& area, const strip::Image& image) {
    if (area.empty()) return {static_cast<double>(image.width), static_cast<double>(image.height)};
    double left = image.width, right = 0.0, top = image.height, bottom = 0.0;
    for (const colour::Point& corner : area) {
        left = std::min(left, corner.x);
        right = std::max(right, corner.x);
        top = std::min(top, corner.y);
        bottom = std::max(bottom, corner.y);
    }
    return {right - left, bottom - top};
}

colour::PhotoScale scale_of(const BattPhotoOptions& o, colour::Taken taken, const Extent& extent) {
    const auto wide = given(o.width, "--width", millimetres_of);
    if (!wide || !(*wide > 0.0))
        fail("nobody knows how large the photo's fibre is",
             "give the width of the marked area, as in --width \"200 mm\"", "--width");
    if (!(extent.wide > 0.0 && extent.high > 0.0))
        fail("the area has no width", "mark it inside the picture", "--area");
    const double mm_per_pixel = *wide / extent.wide;
    return forecast::photo_scale(taken, mm_per_pixel, extent.high * mm_per_pixel, o.turned);
}

stash::BattPhoto seen_in(const BattPhotoOptions& o) {
    stash::BattPhoto photo;
    photo.taken = given(o.taken, "--of", colour::parse_taken).value_or(colour::Taken::face);
    const auto image = value_of(strip::load_photo(o.photo.photo));
    const colour::Pixels pixels{image.rgb, image.width, image.height};
    const colour::Area area = area_in(o.photo, pixels);
    const auto asked = white_in(o.photo, pixels);
    std::optional<colour::WhiteReference> white;
    if (asked) white = colour::WhiteReference{asked->area, asked->reflects.value_or(colour::paper_reflects)};
    const auto scale = scale_of(o, photo.taken, extent_of(area, image));
    auto reading = colour::read_batt_beside(pixels, area, white, scale);
    if (!reading) reading.error().where = "--" + reading.error().where;
    photo.seen = value_of(std::move(reading));
    photo.mm_per_pixel = scale.mm_per_pixel;
    photo.photo = std::filesystem::absolute(o.photo.photo).string();
    return photo;
}

// Whose photo it is: a batt's, or that of a sample whose recipe is named.
void name_owner(const BattPhotoOptions& o, const Context& context, const stash::Stash& stash,
                stash::BattPhoto& photo) {
    photo.name = o.name;
    photo.date = o.date;
    photo.note = o.note;
    if (o.batt.empty() == o.recipe.empty())
        fail(o.batt.empty() ? "nobody knows what the photo is of" : "both a batt and a recipe are named",
             "give --batt with its number, or --recipe for a sample of its own", "--batt");
    if (!o.batt.empty()) {
        const auto id = id_of(o.batt, "--batt");
        const auto batt = value_of(stash.batt(id));
        photo.batt = id;
        if (photo.name.empty()) photo.name = batt.carding.name;
        return;
    }
    const auto shelf = value_of(stash.shelf());
    auto read = recipe_kept(o.recipe, context.catalogue, shelving::lots_of(shelf));
    photo.recipe = std::move(read.kept);
    if (photo.name.empty()) photo.name = recipe::title_of(read.recipe);
}

std::string places_text(const std::optional<double>& variation_de00) {
    return variation_de00 ? "; places differ from that by " + number(*variation_de00, 1) : std::string{};
}

std::string colour_text(const colour::Lab& c) {
    return colour::hex(colour::clipped(colour::srgb_from(c))) + "  L* " + number(c.l, 1) + ", a* " +
           number(c.a, 1) + ", b* " + number(c.b, 1);
}

// Common practice, no source.
constexpr double slope_told_pct = 15.0;

std::string seen_text(const stash::BattPhoto& photo, measure::LengthUnit unit) {
    std::string text =
        "photo " + std::to_string(photo.id) +
        (photo.batt ? " of batt " + std::to_string(*photo.batt) : std::string(" of a sample")) + ", " +
        photo.name + " (" + std::string(colour::word_for(photo.taken)) + ")\n" +
        wrapped(
            "shows     " + colour_text(photo.seen.mean) + places_text(photo.seen.variation_de00) +
                (photo.seen.streak_mm ? "; streaks of " + measure::print_length(*photo.seen.streak_mm, unit)
                                      : std::string{}),
            2) +
        wrapped("foretold  " + colour_text(photo.foretold) + places_text(photo.foretold_variation_de00), 2) +
        wrapped("apart     " + number(colour::ciede2000(photo.seen.mean, photo.foretold), 1) +
                    " CIEDE2000, both by daylight",
                2);
    if (photo.seen.slope_pct > slope_told_pct)
        text += wrapped("the light falls off by " + number(photo.seen.slope_pct, 0) +
                            " % over the picture; that was taken out, better is even light",
                        2);
    return text;
}

std::string lesson_words(const stash::BattPhoto& photo, const stash::HandsLearnt& now) {
    const auto why = stash::why_not(photo, now);
    if (!why) return {};
    return wrapped(why->words + (why->asked ? " (stash edit-photo " + std::to_string(photo.id) +
                                                  " --leave-out, or --confirmed if it is right)"
                                            : std::string{}),
                   0);
}

Answer photo_answer(const stash::Stash& stash, const stash::BattPhoto& photo, const stash::Hands& before,
                    const Common& o) {
    const auto now = value_of(stash.hands());
    if (o.json) {
        Json said = photo_json(photo);
        said.set("before", hands_json(before));
        said.set("now", hands_json(now.hands));
        said.set("question", question_of(photo.id, now));
        return Answer{printed(said)};
    }
    return Answer{seen_text(photo, o.units.length) + lesson_words(photo, now) +
                  hands_text(before, now.hands)};
}

Answer log_photo(const Context& context, const BattPhotoOptions& o) {
    auto photo = seen_in(o);
    auto stash = open_stash(o, context, Opening::writing);
    name_owner(o, context, stash, photo);
    const auto before = value_of(stash.hands());
    const auto recipe = value_of(shelving::recipe_of(photo, stash));
    const auto judged = value_of(shelving::judged(photo, recipe, before.hands, context.catalogue));
    auto logged = value_of(stash.log(judged));
    logged.seen.slope_pct = photo.seen.slope_pct;
    return photo_answer(stash, logged, before.hands, o);
}

Answer edit_photo(const Context& context, const PhotoEditOptions& o) {
    const auto id = id_of(o.id, "PHOTO");
    auto stash = open_stash(o, context, Opening::writing);
    auto photo = value_of(stash.photo(id));
    const auto before = value_of(stash.hands());
    if (o.given("--note")) photo.note = o.note;
    if (o.given("--leave-out")) photo.counts = !o.left_out;
    if (o.given("--confirmed")) photo.confirmed = o.confirmed;
    value_of(stash.change(photo));
    return photo_answer(stash, photo, before.hands, o);
}

Answer remove_photo(const Context& context, const PhotoEditOptions& o) {
    const auto id = id_of(o.id, "PHOTO");
    auto stash = open_stash(o, context, Opening::writing);
    const auto before = value_of(stash.hands());
    value_of(stash.remove_photo(id));
    if (o.json) return Answer{printed({{"removed", id}})};
    const auto now = value_of(stash.hands());
    return Answer{"photo " + o.id + " is out of the record, and what it taught with it\n" +
                  hands_text(before.hands, now.hands)};
}

std::string photos_text(const std::vector<stash::BattPhoto>& photos, const stash::HandsLearnt& now) {
    if (photos.empty()) return "No photo of a batt was logged yet.\n";
    std::string text = right("photo", 7) + "  " + left("date", 12) + left("of", 9) + right("apart", 7) +
                       right("places", 8) + right("foretold", 10) + "  name\n";
    const auto one = [](const std::optional<double>& value) { return value ? number(*value, 1) : "-"; };
    for (const stash::BattPhoto& photo : photos) {
        const auto why = stash::why_not(photo, now);
        text += right(std::to_string(photo.id), 7) + "  " + left(photo.date, 12) +
                left(photo.batt ? "batt " + std::to_string(*photo.batt) : "sample", 9) +
                right(number(colour::ciede2000(photo.seen.mean, photo.foretold), 1), 7) +
                right(one(photo.seen.variation_de00), 8) + right(one(photo.foretold_variation_de00), 10) +
                "  " + photo.name + (why ? " (" + why->in_short + ")" : std::string{}) + "\n";
    }
    return text;
}

Answer list_photos(const Context& context, const Common& o) {
    const auto stash = open_stash(o, context, Opening::reading);
    const auto photos = value_of(stash.photos());
    if (o.json) return Answer{printed({{"photos", list_json(photos, photo_json)}})};
    const auto now = value_of(stash.hands());
    return Answer{photos_text(photos, now)};
}

void add_batt_photo_options(Command& app, BattPhotoOptions& o) {
    app.add_option("PHOTO", o.photo.photo, "a JPEG or PNG by daylight, with something white in it")
        .required();
    app.add_option("--batt", o.batt, "the batt it shows, from stash batts");
    app.add_option("--recipe", o.recipe, "of a sample of its own: the recipe of what went into it");
    app.add_option("--of", o.taken,
                   "face (laid flat), edge (the torn edge, end on) or sample (a pinch carded by hand until "
                   "even); face unless given");
    app.add_option("--width", o.width, "how wide the marked area is in truth, as in \"200 mm\"");
    app.add_option(
        "--area", o.photo.area,
        "where the fibre lies in the photo: left,top,width,height in pixels or percent, or corners");
    app.add_option("--white", o.photo.white, "something white in the photo: a point or an area");
    app.add_option("--white-reflects", o.photo.white_reflects,
                   "how much light the white thing throws back; \"90 %\", as paper, unless given");
    app.add_flag("--turned", o.turned, "the way round the drum lies across the photo, not up and down");
    app.add_option("--name", o.name, "the batt's or the recipe's name unless given");
    app.add_option("--date", o.date, "today unless given");
    app.add_option("--note", o.note, "anything worth keeping");
}

}  // namespace

void add_batt_photo_verbs(StashCommands& commands) {
    add_verb<BattPhotoOptions>(commands, "batt-photo",
                               "hold a photo of a batt or a sample against its forecast, and learn from it",
                               add_batt_photo_options, log_photo);
    const auto add_id = [](Command& app, PhotoEditOptions& o) {
        app.add_option("PHOTO", o.id, "its number, from stash batt-photos").required();
    };
    add_verb<PhotoEditOptions>(
        commands, "edit-photo", "leave a photo of a batt out of what is learnt, or take it in again",
        [add_id](Command& app, PhotoEditOptions& o) {
            add_id(app, o);
            app.add_flag("--leave-out,!--take-in", o.left_out, "learn nothing from it");
            app.add_flag("--confirmed,!--doubtful", o.confirmed,
                         "it is right, however far off: learn from it, ask no more");
            app.add_option("--note", o.note, "anything worth keeping");
        },
        edit_photo);
    add_verb<PhotoEditOptions>(commands, "remove-photo",
                               "take a photo of a batt out of the record, and what it taught with it", add_id,
                               remove_photo);
    add_verb<Common>(
        commands, "batt-photos", "the photos of batts in the record", [](Command&, Common&) {}, list_photos);
}

}  // namespace battwright::command
