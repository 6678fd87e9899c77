// The catalogue: what is known of each kind of fibre, with the source of every figure.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"

namespace battwright::fibre {

// Morton and Hearle, Physical Properties of Textile Fibres.
inline constexpr double wool_density_g_cm3 = 1.31;

enum class Family { wool, hair, silk, bast, cotton, regenerated, synthetic, sparkle, inclusion, unknown };
// How it behaves on the drum: drafts as a fibre, or rides along as a lump among the fibres.
enum class Form { fibre, nep, lock, film };
// What the catalogue's and a tag's staple means for the length of the fibres: see fibre/lengths.hpp.
enum class StapleAs { pulled, fleece_to_top, mean };

// What the fibre has been through before it came to the carder, as labels ask: never spun; spun into yarn and
// no more; may be either; woven, felted or worn. In the order in which one may say less of it.
enum class Past { fleece, yarn, unsure, cloth };

// Low and high of what is published of a figure.
struct Range {
    double low = 0.0, high = 0.0;
};
// One kind of fibre. A CV is a fraction (0.25 = 25 %).
struct Kind {
    std::string id;    // "merino-fine": what a recipe writes
    std::string name;  // "Merino, fine": what a person reads
    Family family = Family::unknown;
    Form form = Form::fibre;
    double staple_mm = 0.0;  // of a lock or tuft as a spinner meets it; the fibres' mean: mean_fibre_mm()
    double staple_cv = 0.0;  // of the length of the fibres, by number
    StapleAs staple_as = StapleAs::pulled;
    double diameter_um = 0.0;  // mean; film: width of the equal-area round fibre
    double diameter_cv = 0.0;
    double density_g_cm3 = 0.0;
    double allowance_pct = 0.0;  // agreed moisture allowance, percent of dry mass
    double lustre = 0.0;         // 0 matt .. 1 mirror
    double slipperiness = 0.0;   // 0 grips .. 1 slides away
    double crimp_per_cm = 0.0;   // waves per centimetre
    double retention = 1.0;      // share expected to stay in the batt and yarn, by mass
    Past past = Past::fleece;
    std::string label_eu;                        // generic name, Regulation (EU) No 1007/2011
    std::string label_us;                        // generic name, 16 CFR 300 and 303
    std::vector<std::string> natural_colours;    // "#rrggbb", the first is the default
    std::vector<std::string> also;               // other trade words a person may search for
    std::map<std::string, std::string> sources;  // figure, as the file names it -> source in full
    std::map<std::string, Range> published;      // figure -> what holds it; "yield": of a raw fleece, in %
};

// Linear density of one fibre in tex: rho * pi/4 * d^2 * (1 + CVd^2) * 1e-3, d in um, rho in g/cm3.
// (Mass per length of a round fibre; the spread term since mass goes with the mean of d^2.)
double fibre_tex(double diameter_um, double diameter_cv, double density_g_cm3);

// Whether the figure is only remembered or guessed: no published range, and no source or one that says so.
bool is_guess(const Kind& kind, const std::string& figure);
// How far one lot of this kind may lie from its "staple", "diameter", "staple_cv", "diameter_cv" or "crimp",
// as a fraction of the figure: half the published range; for a guess a quarter of a staple, an eighth of a
// diameter, a fifth of the CV of length, a seventh of that of diameter and two fifths of the crimp (judged by
// how far the guesses of an earlier catalogue lay from what was then published). 0 for what has a source.
double doubt(const Kind& kind, const std::string& figure);

// A word for a person: "wool", "hair", ... and back.
std::string_view word_for(Family family);
std::string_view word_for(Form form);
std::string_view word_for(StapleAs meaning);
std::optional<Family> family_from(std::string_view word);
std::optional<Form> form_from(std::string_view word);
const std::vector<std::string>& family_words();
const std::vector<std::string>& form_words();
std::optional<StapleAs> staple_as_from(std::string_view word);
const std::vector<std::string>& staple_as_words();
// "never", "yarn", "unsure", "cloth", as in reclaimed = "yarn".
std::string_view word_for(Past past);
std::optional<Past> past_from(std::string_view word);
const std::vector<std::string>& past_words();
// What a catalogue file states of a kind and gives a source for: "staple", "staple_cv", "diameter", ...
std::vector<std::string> figure_names();

class Catalogue {
  public:
    // Reads a catalogue file's text; `path` is only for complaints. Later kinds replace earlier of the same
    // id.
    static measure::Expected<Catalogue> from_text(std::string_view text, const std::string& path);
    // The same for a file whose kinds may be `like` a kind of the catalogue below it.
    static measure::Expected<Catalogue> from_text(std::string_view text, const std::string& path,
                                                  const Catalogue& below);
    // The catalogue compiled into the program. It has been tested to read, so it cannot fail.
    static const Catalogue& builtin();
    // This catalogue with another laid on top (the user's own kinds win).
    Catalogue with(const Catalogue& upper) const;

    const Kind* find(std::string_view id) const;  // nullptr when unknown
    // The same, owned, so that it outlives the catalogue; every call gives the same address.
    std::shared_ptr<const Kind> share(std::string_view id) const;
    const std::vector<Kind>& kinds() const { return *kinds_; }
    std::vector<std::string> ids() const;
    // Kinds whose id, name, family or other words hold every word of `query` (case ignored; "-" and "," part
    // words), best first; all, in the order of the file, for "".
    std::vector<const Kind*> search(std::string_view query) const;
    // The one kind a person means by a word: its id, else all words of its id, its name or one of its other
    // words (case, order, hyphens and blanks ignored; the family's name may follow: "Corriedale wool"), else
    // its id but for the last word ("tussah"). Locks are meant only where nothing else is. nullptr when no
    // kind or several fit.
    const Kind* meant(std::string_view word) const;
    // For "did you mean": up to three ids search() finds, else the nearest of ids and `others` by spelling.
    std::vector<std::string> near(std::string_view word, const std::vector<std::string>& others = {}) const;

  private:
    static Catalogue of(std::vector<Kind> kinds);
    std::shared_ptr<const std::vector<Kind>> kinds_ = std::make_shared<std::vector<Kind>>();
};

// The complaint about a word that meant() gives no kind for, with the nearest to choose from; no `where`.
measure::Complaint unknown_kind(std::string_view word, const Catalogue& catalogue);

// The user's own catalogue file ($XDG_DATA_HOME/battwright/fibres.toml, else that under ~/.local/share) laid
// over the built-in one. A missing file is no error; a broken one is.
measure::Expected<Catalogue> catalogue_for_user();

}  // namespace battwright::fibre
