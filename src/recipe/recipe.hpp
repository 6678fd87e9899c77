// The batt as a person writes it down.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "colour/spectrum.hpp"
#include "fibre/catalogue.hpp"
#include "measure/units.hpp"
#include "recipe/amount.hpp"
#include "recipe/carder.hpp"
#include "recipe/colour_from.hpp"
#include "recipe/content.hpp"
#include "recipe/feeding.hpp"
#include "recipe/laying.hpp"
#include "recipe/plying.hpp"
#include "recipe/price.hpp"
#include "recipe/series.hpp"

namespace battwright::recipe {

// One colour of a component; shares of a component's tints sum to 100.
struct Tint {
    colour::Srgb colour;
    double share_pct = 100.0;
    bool operator==(const Tint&) const = default;
};

struct Component {
    std::string name;                       // the user's own name for it; may be empty
    std::string lot;                        // mark of a lot in the stash; may be empty
    std::vector<Content> content;           // never empty in a checked recipe
    std::vector<Tint> palette;              // empty: the kinds' natural colours
    std::optional<ColourFrom> colour_from;  // empty: nobody said
    Amount amount = Parts{1.0};
    bool locked = false;                    // nobody but the user changes the amount, as it is written
    std::optional<measure::Length> staple;  // the tag's own figure beats the catalogue
    std::optional<double> diameter_um;      // same
    std::optional<fibre::Past> reclaimed;   // what the user says of it beats the catalogue
    int add_on_pass = 1;                    // 1 = first; `last_pass` = whatever pass is the last
    std::optional<Price> price;
    std::string notes;
    bool operator==(const Component&) const = default;
};
inline constexpr int last_pass = 0;

inline constexpr int usual_repeats = 8;

struct Carding {
    std::string carder = "table-standard";  // a preset's id; empty when `own` is set
    std::optional<Carder> own;              // a carder written out in the recipe
    int passes = 3;
    int strips = usual_strips;  // a batt is split into for the next pass
    Manner feed = Manner::layers;
    Refeed refeed = Refeed::strips;
    std::vector<Refeed> refeeds{};     // one for each of pass 2, 3, ...; where there is none, `refeed`
    int repeats = usual_repeats;       // how often each comes round when fed in turn (`alternating`)
    double overlap_pct = 50.0;         // of a stripe's width that its neighbour is laid over
    std::vector<Laying> layings{};     // instead of `feed`, when there are any
    std::vector<SmallBlend> blends{};  // carded beforehand, for the layings
    int rolags = 4;          // a blending board's fibre is rolled off in; 0: lifted off whole, as a batt
    bool recombine = false;  // each first-pass batt split into as many pieces as batts, one of each into each
    bool operator==(const Carding&) const = default;
};

// Colours are laid apart on purpose: side by side, as a gradient, in dabs, or by hand with places of their
// own.
bool lays_apart(const Carding& carding);
// Whether fibre can be laid so on that tool: what lies along hand cards is drawn out over their whole length.
bool is_fed_so(Manner manner, const Carder& carder);
// How the batt goes back for a pass (2, 3, ...).
Refeed refeed_for(const Carding& carding, int pass);
// Its own carder, else the preset it names, else the first preset.
Carder carder_of(const Carding& carding);
// The same carding on another carder, without what makes no sense there (a tray on a board; ways back, places
// along and recombining on hand cards). `is_preset`: by its id, else written out.
Carding on_carder(Carding carding, const Carder& carder, bool is_preset = true);
// Into how many pieces a batt goes to the wheel: strips off a drum, rolags off a board, one off hand cards.
int pieces_spun(const Carding& carding);
// Rolled off a board, or off hand cards.
bool makes_rolags(const Carding& carding);

enum class Preparation { woollen, semi_woollen, worsted };
struct PreparationRow {
    Preparation value;
    std::string_view word, help;  // in a recipe; what it means
};
inline constexpr std::array<PreparationRow, 3> preparations{{
    {Preparation::woollen, "woollen",
     "Drafted with twist in the fibre, from a batt or rolag: airy, warm, short."},
    {Preparation::semi_woollen, "semi-woollen",
     "From the carded batt, the fibres kept in order while drafting: between the two."},
    {Preparation::worsted, "worsted",
     "Combed or drawn out, the twist kept out of the fibre: smooth, dense, long."},
}};
static_assert(measure::one_row_each(preparations));
enum class ThicknessIn { wpi, tex, class_name };
struct Thickness {
    ThicknessIn in = ThicknessIn::wpi;
    double value = 12.0;     // wraps per inch or tex
    std::string class_name;  // when `in` is class_name: "lace" ... "jumbo"
    bool operator==(const Thickness&) const = default;
};
struct Spinning {
    Preparation preparation = Preparation::woollen;
    int plies = 2;
    Thickness thickness;
    Plying plying = Plying::plied;  // the ways that are not `plied` have their own number of plies
    Twist twist = Twist::medium;
    std::optional<Thread> thread;       // with_thread needs it
    std::optional<double> wheel_ratio;  // turns of the flyer for one of the wheel
    bool operator==(const Spinning&) const = default;
};

// What the yarn is for. Without it nothing is said of how it will feel.
struct Purpose {
    std::string thing;  // one of purpose_things(), or empty
    std::string size;   // as the table of projects has it, or empty
    std::optional<bool> next_to_skin;
    bool operator==(const Purpose&) const = default;
};
const std::vector<std::string>& purpose_things();  // "hat", "socks", ...: the projects of the yarn room
std::vector<std::string> purpose_sizes(std::string_view thing);  // theirs; none of another thing
// As written; else by the thing: what is worn round the head or neck, and what a child wears, is (common
// practice, no source). Empty: nobody said.
std::optional<bool> next_to_skin(const Purpose& purpose);

struct Recipe;
// How the fibre is prepared for the wheel: as the recipe says; rolled into rolags it is woollen.
Preparation preparation_of(const Recipe& recipe);

struct Recipe {
    std::string name;
    std::string notes;
    std::optional<measure::Mass> total;
    std::vector<Component> components;
    Carding carding;
    Spinning spinning;
    Purpose purpose;
    std::optional<Series> series;
    bool carding_written = false;  // the file has the table, so writing keeps it
    bool spinning_written = false;
    bool operator==(const Recipe&) const = default;
};

}  // namespace battwright::recipe
