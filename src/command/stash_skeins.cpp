// Skeins: what was spun, how it came out against the forecast, and what it became.
#include <cmath>
#include <filesystem>
#include <ostream>

#include "colour/spaces.hpp"
#include "command/layout.hpp"
#include "command/stash_common.hpp"
#include "command/stash_json.hpp"
#include "command/stash_parts.hpp"
#include "command/stash_photo.hpp"
#include "command/units.hpp"
#include "recipe/thickness.hpp"
#include "shelving/foretell.hpp"
#include "stash/mixture_words.hpp"
#include "stash/more_yarn.hpp"
#include "stash/skein_colour.hpp"
#include "yarn/habit_words.hpp"

namespace battwright::command {
namespace {

struct SkeinOptions : Common {
    std::string skein, name, date, weight, length, preparation, note, became;
    std::vector<std::string> batts, colours;
    PhotoOptions photo;
    double wpi = 0.0;
    int plies = 0;
    bool odd = false, changed_plan = false, confirmed = false, before_wash = false;
};

// "4" or "4 60 %", several for a skein of several batts.
std::vector<stash::FromBatt> batts_of(const SkeinOptions& o) {
    const auto parts = given(with_semicolons(o.batts), "--batt", stash::parse_content);
    std::vector<stash::FromBatt> from;
    if (!parts) return from;
    for (const recipe::Content& part : *parts) from.push_back({id_of(part.fibre, "--batt"), part.share_pct});
    return from;
}

void take_measures(const SkeinOptions& o, stash::Skein& skein) {
    const auto grams = given(o.weight, "--weight", grams_of);
    const auto metres = given(o.length, "--length", measure::parse_yarn_length_metres);
    const auto preparation = preparation_given(o.preparation);
    if (o.given("--weight")) skein.grams = grams.value_or(0.0);
    if (o.given("--length")) skein.metres = metres.value_or(0.0);
    if (o.given("--wpi")) skein.wpi = o.wpi;
    if (o.given("--plies")) skein.plies = o.plies;
    if (preparation) skein.preparation = *preparation;
}

void take_skein_texts(const SkeinOptions& o, stash::Skein& skein) {
    o.take("--name", o.name, skein.name);
    o.take("--date", o.date, skein.date);
    o.take("--note", o.note, skein.note);
    o.take("--became", o.became, skein.became);
    if (o.given("--photo"))
        skein.photo = o.photo.photo.empty() ? "" : std::filesystem::absolute(o.photo.photo).string();
    if (o.given("--odd")) skein.counts = !o.odd;
    if (o.given("--changed-plan")) skein.changed_plan = o.changed_plan;
    if (o.given("--confirmed")) skein.confirmed = o.confirmed;
}

// Typed, or off the photo where it is said what of it to look at; else the photo is kept and not looked at.
void take_skein_colours(const SkeinOptions& o, stash::Skein& skein) {
    if (o.given("--colour"))
        return put(given(with_semicolons(o.colours), "--colour", stash::parse_palette), skein.palette);
    const char* look = photo_option_given(o);
    if (look == nullptr) return;
    if (skein.photo.empty()) fail_without_photo(look);
    PhotoOptions photo = o.photo;
    photo.photo = skein.photo;
    skein.palette = palette_from(photo);
}

// Its colours beside the forecast's.
std::string colours_text(const stash::Skein& skein, const stash::Stash& stash) {
    if (skein.palette.empty()) return {};
    std::string text = "colours: " + palette_text(skein.palette);
    if (const auto foretold = stash::foretold_colour(skein, value_of(stash.batts())))
        text += "; " + measure::print_number(colour::ciede2000(*stash::seen_colour(skein), *foretold), 1) +
                " CIEDE2000 from the " + colour::hex(colour::clipped(colour::srgb_from(*foretold))) +
                " foretold";
    return wrapped(text, 0);
}

std::vector<shelving::SpunFrom> spun_from(const stash::Skein& skein, const stash::Stash& stash) {
    std::vector<shelving::SpunFrom> from;
    for (const stash::FromBatt& part : skein.from)
        from.push_back({value_of(stash.batt(part.batt)), part.share_pct});
    return from;
}

// A length from before the wash becomes washed and dry, by the fibre of its batts; it is only worked out, so
// it teaches nothing unless she says that it shall.
void take_wash(const SkeinOptions& o, stash::Skein& skein, const stash::Stash& stash,
               const Context& context) {
    if (!o.before_wash) return;
    if (!o.given("--length"))
        fail("no length was given that the wash could shorten", "give it with --length", "--before-wash");
    const auto from = spun_from(skein, stash);
    skein.note += (skein.note.empty() ? "" : "\n") + o.yarn(skein.metres) + " before the wash";
    skein.metres =
        yarn::length_after_wash_m(skein.metres, shelving::wash_shrink_pct(from, context.catalogue).middle());
    if (!o.given("--odd")) skein.counts = false;
}

// Batts, and with them the forecast; the batt's name and preparation where the skein has none of its own.
// Nothing, with a line on `err`, when a batt's recipe cannot be read any more or makes no yarn.
std::optional<stash::Foretold> foretold_for(const stash::Skein& skein, const stash::Stash& stash,
                                            const Context& context) {
    if (skein.from.empty()) return std::nullopt;
    const auto from = spun_from(skein, stash);
    const auto calibration = value_of(stash.calibration());
    const auto told =
        shelving::foretold_of(from, calibration, context.catalogue, {skein.preparation, skein.plies});
    if (told) return told->foretold;
    *context.s.err << "note: no length was foretold: " << measure::to_line(told.error()) << "\n";
    return std::nullopt;
}

void take_batts(const SkeinOptions& o, stash::Skein& skein, const stash::Stash& stash,
                const Context& context) {
    if (!o.given("--batt")) return;
    skein.from = batts_of(o);
    if (!skein.from.empty()) {
        const auto first = value_of(stash.batt(skein.from.front().batt));
        if (skein.name.empty()) skein.name = first.carding.name;
        if (o.preparation.empty()) skein.preparation = first.carding.preparation;
    }
    skein.foretold = foretold_for(skein, stash, context);
}

// The range foretold for as much yarn as the skein weighs.
yarn::Range foretold_range(const stash::Skein& skein) {
    const stash::Foretold& f = *skein.foretold;
    const double part = f.grams > 0.0 && skein.grams > 0.0 ? skein.grams / f.grams : 1.0;
    return {f.low_m * part, f.high_m * part};
}

// What it asks of its spinner, or else what it taught of aim and loft.
std::string lesson_text(const stash::Skein& skein, const stash::Stash& stash) {
    if (!skein.counts || !(skein.metres > 0.0)) return {};
    const auto questions = stash.questions();
    if (!questions) return {};
    for (const stash::AskedSkein& asked : *questions) {
        if (asked.skein != skein.id) continue;
        const bool changed = asked.question == yarn::Question::changed_her_mind;
        return wrapped(
            yarn::question_words(asked.question, asked.lesson) + " (stash edit-skein " +
                std::to_string(skein.id) +
                (changed ? " --changed-plan, or --confirmed if not)" : " --confirmed if they are)"),
            0);
    }
    yarn::Calibration alone;
    const auto taught = alone.learn(stash::lesson_of(skein));
    return taught ? wrapped(yarn::taught_words(*taught), 0) : std::string{};
}

// How the skein came out against its forecast, and what was learnt.
std::string skein_learnt_text(const stash::Skein& skein, const yarn::Calibration& calibration,
                              const Common& o) {
    std::string text;
    if (skein.foretold && skein.metres > 0.0) {
        const yarn::Range range = foretold_range(skein);
        text += wrapped("foretold " + o.yarn(range.low) + " to " + o.yarn(range.high) +
                            (skein.grams > 0.0 ? " for its weight" : "") + "; it is " + o.yarn(skein.metres),
                        0);
    }
    const std::string words = skeins_words(calibration.of(skein.preparation).count);
    if (!words.empty())
        text += "The yardage of " + std::string(recipe::word_for(skein.preparation)) + " yarn now " + words +
                ".\n";
    return text;
}

// The length that the wash made of the one given.
std::string wash_text(const SkeinOptions& o, const stash::Skein& skein) {
    if (!o.before_wash) return {};
    return wrapped("washed and dry it is about " + o.yarn(skein.metres) +
                       (skein.counts ? "" : ": that is worked out, so nothing is learnt from it"),
                   0);
}

// On `err`: it may be right all the same, where something was plied in.
void ask_about_weight(const stash::Skein& skein, const stash::Stash& stash, const Common& o,
                      const Context& context) {
    const auto batts = stash.batts();
    const auto skeins = stash.skeins();
    if (!batts || !skeins) return;
    const auto more = stash::more_yarn_than_fibre(skein, *batts, *skeins);
    if (!more) return;
    *context.s.err << "note: that makes " << o.mass(more->yarn_grams) << " of yarn from "
                   << o.mass(more->fibre_grams) << " of batt " << more->batt
                   << (more->name.empty() ? "" : ", " + more->name)
                   << ": is the weight right, or was something plied in? (stash edit-skein " << skein.id
                   << " --weight)\n";
}

Answer answer_for(const stash::Stash& stash, const stash::Skein& skein, const SkeinOptions& o,
                  const char* verb) {
    if (o.json) return Answer{printed(skein_json(skein))};
    const auto calibration = value_of(stash.calibration());
    return Answer{"skein " + std::to_string(skein.id) + " is " + verb + ": " + skein.name + "\n" +
                  wash_text(o, skein) + colours_text(skein, stash) +
                  skein_learnt_text(skein, calibration, o) + lesson_text(skein, stash)};
}

Answer log_skein(const Context& context, const SkeinOptions& o) {
    stash::Skein skein;
    take_skein_texts(o, skein);
    take_measures(o, skein);
    take_skein_colours(o, skein);
    if (skein.name.empty() && o.batts.empty())
        fail("the skein has no name", "name it, or its batt with --batt", "--name");
    // Yarn from before the stash may be the first thing in it.
    auto stash = open_stash(o, context, o.batts.empty() ? Opening::creating : Opening::writing);
    take_batts(o, skein, stash, context);
    take_wash(o, skein, stash, context);
    const auto made = value_of(stash.log(skein));
    ask_about_weight(made, stash, o, context);
    return answer_for(stash, made, o, "logged");
}

Answer edit_skein(const Context& context, const SkeinOptions& o) {
    const auto id = id_of(o.skein, "SKEIN");
    auto stash = open_stash(o, context, Opening::writing);
    auto skein = value_of(stash.skein(id));
    take_skein_texts(o, skein);
    take_measures(o, skein);
    take_skein_colours(o, skein);
    take_batts(o, skein, stash, context);
    take_wash(o, skein, stash, context);
    value_of(stash.change(skein));
    skein = value_of(stash.skein(id));
    if (o.given("--weight") || o.given("--batt")) ask_about_weight(skein, stash, o, context);
    return answer_for(stash, skein, o, "changed");
}

Answer remove_skein(const Context& context, const SkeinOptions& o) {
    const auto id = id_of(o.skein, "SKEIN");
    auto stash = open_stash(o, context, Opening::writing);
    value_of(stash.remove_skein(id));
    if (o.json) return Answer{printed({{"removed", id}})};
    return Answer{"skein " + o.skein + " is out of the record, with what it was promised to\n"};
}

std::string dash(bool known, const std::string& text) {
    return known ? text : "-";
}

// What a skein that teaches nothing yet waits for.
std::string waits_text(const stash::Skein& skein, const std::vector<stash::AskedSkein>& questions) {
    for (const stash::AskedSkein& asked : questions) {
        if (asked.skein != skein.id) continue;
        return std::string(" (far off, teaches nothing until: stash edit-skein ") + std::to_string(skein.id) +
               (asked.question == yarn::Question::changed_her_mind ? " --changed-plan or --confirmed)"
                                                                   : " --confirmed)");
    }
    return {};
}

std::string skeins_text(const std::vector<stash::Skein>& skeins,
                        const std::vector<stash::AskedSkein>& questions, measure::MassUnit mass,
                        measure::YarnLengthUnit length) {
    if (skeins.empty()) return "No skein was logged yet.\n";
    std::string text = right("skein", 7) + "  " + left("date", 12) + right("weight", 9) + right("length", 9) +
                       right("foretold", 18) + right("wpi", 5) + right("plies", 7) + "  name\n";
    for (const stash::Skein& skein : skeins) {
        std::string foretold = "-";
        if (skein.foretold) {
            const yarn::Range range = foretold_range(skein);
            foretold = measure::print_yarn_length(range.low, length) + " to " +
                       measure::print_yarn_length(range.high, length);
        }
        text += right(std::to_string(skein.id), 7) + "  " + left(skein.date, 12) +
                right(dash(skein.grams > 0.0, measure::print_mass(skein.grams, mass)), 9) +
                right(dash(skein.metres > 0.0, measure::print_yarn_length(skein.metres, length)), 9) +
                right(foretold, 18) + right(dash(skein.wpi > 0.0, number(skein.wpi, 0)), 5) +
                right(dash(skein.plies > 0, std::to_string(skein.plies)), 7) + "  " + skein.name +
                (skein.became.empty() ? "" : ": " + skein.became) +
                (skein.counts ? waits_text(skein, questions) : " (counts for nothing)") + "\n";
    }
    return text;
}

Answer list_skeins(const Context& context, const Common& o) {
    const auto stash = open_stash(o, context, Opening::reading);
    const auto skeins = value_of(stash.skeins());
    if (o.json) return Answer{printed({{"skeins", list_json(skeins, skein_json)}})};
    const auto questions = value_of(stash.questions());
    return Answer{skeins_text(skeins, questions, o.units.mass, o.units.yarn)};
}

void add_skein_options(Command& app, SkeinOptions& o) {
    app.add_option("--batt", o.batts,
                   "the batt it was spun from; of several each with its share, \"4 60 %\"");
    app.add_option("--name", o.name, "the batt's name unless given");
    app.add_option("--date", o.date, "today unless given");
    app.add_option("--weight", o.weight, "washed and dry, as in \"52 g\"");
    app.add_option("--length", o.length, "washed and dry, as in \"180 m\" or \"200 yd\"");
    app.add_flag("--before-wash", o.before_wash,
                 "the length was measured before the wash: it is worked out to washed and dry, kept in the "
                 "note, and not learnt from unless --usual");
    app.add_option("--wpi", o.wpi, "wraps per inch, laid on without pulling");
    app.add_option("--plies", o.plies, "strands plied together");
    app.add_option("--preparation", o.preparation,
                   "woollen, semi-woollen or worsted; as planned unless given");
    app.add_option("--photo", o.photo.photo,
                   "a photo of it; its colours are read where --area or --white says what to look at");
    add_photo_options(app, o.photo);
    app.add_option("--colour", o.colours, "as in \"dark blue\" or \"#2f5d50\"; several each with its share");
    app.add_option("--note", o.note, "anything worth keeping");
    app.add_option("--became", o.became, "what it was knitted, woven or traded into");
    app.add_flag("--odd,!--usual", o.odd,
                 "learn nothing from it: a shared wheel, a yarn that is none of yours");
    app.add_flag("--changed-plan,!--kept-plan", o.changed_plan,
                 "the wraps were meant, whatever the plan said: learn its loft alone, nothing of your aim");
    app.add_flag("--confirmed,!--doubtful", o.confirmed,
                 "the plan stood and the figures are right, however far off: learn from it, ask no more");
}

}  // namespace

void add_skein_verbs(StashCommands& commands) {
    add_verb<SkeinOptions>(commands, "skein", "log a skein, and learn from it", add_skein_options, log_skein);
    const auto add_id = [](Command& app, SkeinOptions& o) {
        app.add_option("SKEIN", o.skein, "its number, from stash skeins").required();
    };
    add_verb<SkeinOptions>(
        commands, "edit-skein", "change what was logged of a skein",
        [add_id](Command& app, SkeinOptions& o) {
            add_id(app, o);
            add_skein_options(app, o);
        },
        edit_skein);
    add_verb<SkeinOptions>(commands, "remove-skein", "take a skein out of the record", add_id, remove_skein);
    add_verb<Common>(
        commands, "skeins", "the skeins of the record", [](Command&, Common&) {}, list_skeins);
}

}  // namespace battwright::command
