// A skein as it is typed in, in the user's own units, and what becomes of it. No display.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/record/batt_photo.hpp"
#include "app/record/record_book.hpp"
#include "app/settings.hpp"
#include "stash/stash.hpp"
#include "yarn/finish.hpp"

namespace battwright::app {

// What the wash takes of a yarn nothing is known of: a middling wool.
yarn::Spread shrink_of_unknown();

// Texts are as typed; "" is not known.
struct SkeinForm {
    std::int64_t id = 0;  // 0: not logged yet
    std::string name, date;
    std::vector<stash::FromBatt> from;
    std::string weight;
    bool by_turns = false;  // the length is counted on the winder
    std::string length;
    std::string turns, round;  // times round, and how long one is
    // The length is as wound; what the wash will take of it, by the fibre of its batts.
    bool before_wash = false;
    yarn::Spread shrink_pct = shrink_of_unknown();
    std::string wraps;
    int plies = 2;  // 0: not said
    recipe::Preparation preparation = recipe::Preparation::woollen;
    std::string photo, note, became;
    std::vector<recipe::Tint> palette;  // off the photo
    bool counts = true;
    std::optional<stash::Foretold> foretold;  // kept with it
    std::optional<stash::Skein> logged;       // as it was; figures not typed anew stay exact
};
SkeinForm form_of(const stash::Skein& skein, const Settings& settings);
// An empty form of today; the winder's own length is remembered.
SkeinForm new_skein_form(const Settings& settings);

// What was typed that is not in the record, as one text (see half_typed.hpp); "" when nothing was. That a new
// skein is from a batt and goes by its name is no more than a press.
std::string typed_in(const SkeinForm& form, const Settings& settings);

// Says when the length was measured. One from before the wash is only worked out to washed and dry, so it
// teaches nothing unless she says that it shall.
void measure_before_wash(SkeinForm& form, bool before, const RecordBook& book,
                         const fibre::Catalogue& catalogue);

// The skein, washed and dry, or the first thing wrong with a figure, its field in `where`. A length from
// before the wash is kept in the note.
measure::Expected<stash::Skein> skein_of(const SkeinForm& form, const Settings& settings);

// Fills in what the form's batts foretell now, and of a new skein how it is to be spun. Why they foretell
// nothing, or "".
std::string foretell(SkeinForm& form, const RecordBook& book, const yarn::Calibration& calibration,
                     const fibre::Catalogue& catalogue);

// Its colours' mean beside the forecast's under that light; none where one of them is not known.
std::optional<SideBySide> skein_beside(const SkeinForm& form, const RecordBook& book, colour::Light light);

// What is asked when there would be more yarn of a batt than there was fibre: "that makes 62 g of yarn from
// 40 g of Kelp: is the weight right?"; "" when there is not.
std::string more_yarn_in_words(const stash::Skein& skein, const RecordBook& book, const Settings& settings);

// Once round the winder so many times. Yarn lies on it side by side, so no turn is longer than another.
double wound_metres(double turns, double round_metres);
// "171 m, 281 tex, 356 m per 100 g", or what it washes to; empty without a length.
std::string length_in_words(const stash::Skein& skein, const SkeinForm& form, const Settings& settings);
// "163 m to 301 m", what its batts foretold for its weight. Precondition: they did.
std::string foretold_in_words(const stash::Skein& skein, const Settings& settings);
// "washed about 178 m (165 to 190 m)", of a length before the wash.
std::string washed_in_words(double metres_before, const yarn::Spread& shrink_pct, const Settings& settings);
// One turn of the winder, "1.5 m", "2 yd", "150 cm", "60 in": metres. A bare number is a complaint, since
// both metres and centimetres are usual.
measure::Expected<double> parse_round_metres(std::string_view typed);

// The batts a skein is spun from: one more, all sharing equally; one less, the others making up for it;
// another share of one, the last of the others making up for it where it can.
std::vector<stash::FromBatt> with_batt(std::vector<stash::FromBatt> from, std::int64_t batt);
std::vector<stash::FromBatt> without_batt(std::vector<stash::FromBatt> from, std::size_t index);
std::vector<stash::FromBatt> with_batt_share(std::vector<stash::FromBatt> from, std::size_t index,
                                             double percent);

}  // namespace battwright::app
