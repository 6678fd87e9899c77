// What is to be printed of the batt, as the card panel was told, and the files made of it. Needs no display.
#pragma once

#include <array>
#include <filesystem>
#include <functional>
#include <set>
#include <stop_token>
#include <string>
#include <vector>

#include "card/output.hpp"
#include "card/recipe_card.hpp"
#include "card/tag.hpp"

namespace battwright::app {

enum class PageKind { recipe_card, tag, label };

// What a content label says on the seller's word, since no recipe can know it.
struct SellersWord {
    bool new_wool = false;          // all the wool is new, never reclaimed
    bool count_decorative = false;  // EU, UK: sparkle is stated even where it may be left out
    bool visible_pattern = false;   // US: the sparkle forms a visible pattern
    std::string functional;         // US: fibres that do a job under 5 %, as typed: "nylon, elastane"
    std::string origin;             // US: "Made in ..."
    bool draft = true;              // print that it is a draft to be checked
    bool operator==(const SellersWord&) const = default;
};
card::LabelOptions label_options(const SellersWord& word);

struct CardChoice {
    PageKind kind = PageKind::recipe_card;
    std::array<card::Paper, 3> papers{card::Paper::a6, card::Paper::tag, card::Paper::a6};  // by kind
    std::set<card::Part> parts = card::CardOptions{}.parts;
    card::Market market = card::Market::eu_uk;
    card::Product product = card::Product::batt;  // what the tag and the label are of
    SellersWord word;
    std::string maker, lot;  // on the tag, as typed
    std::string measured;    // the skein's length, the same: "380 m"
    std::string date;        // as printed; may be empty
    measure::MassUnit mass = measure::MassUnit::gram;
    measure::LengthUnit length = measure::LengthUnit::millimetre;

    card::Paper paper() const { return papers[static_cast<std::size_t>(kind)]; }
    bool operator==(const CardChoice&) const = default;
};

card::Page page_of(const forecast::Forecast& forecast, const CardChoice& choice);
// What the tag and the content label state, with what was refused.
card::Label label_of(const forecast::Forecast& forecast, const CardChoice& choice);
// What goes with the tag and is not printed on it: a line for each refusal and each note. None for a card.
std::vector<std::string> said_with(const forecast::Forecast& forecast, const CardChoice& choice);
// "card", "tag" or "label": what a file's name ends in before the dot.
std::string word_for(PageKind kind);
// The name with another ending: .pdf, .png, .txt and .md are replaced, anything else is kept before it.
std::string with_ending(const std::string& name, const std::string& ending);

// The resolution at which the paper just fits into a box of pixels, at least 20 dpi.
double dpi_to_fit(card::Paper paper, int width, int height);

// Writes the page in the format of the path's ending; the complaint about an ending names the field. No tag
// is written when something asked of its content was refused, and no label when there can be none.
measure::Expected<std::vector<std::filesystem::path>> write_page(const forecast::Forecast& forecast,
                                                                 const CardChoice& choice,
                                                                 const std::filesystem::path& path);

// A page for every recipe of a folder.
struct Batch {
    std::filesystem::path from, to;
    std::string ending;  // ".pdf"
    CardChoice choice;
    forecast::Bench bench;
    bool sheets = false;  // side by side on sheets of A4 in one PDF, to be cut apart
};
struct BatchResult {
    std::size_t of = 0, written = 0;
    std::vector<measure::Complaint> failed;  // each names its recipe or file
};
// The recipe files of a folder by name, hidden ones left out; none when it cannot be read.
std::vector<std::filesystem::path> recipes_in(const std::filesystem::path& folder);
// Where the page of a recipe file goes: TO/NAME-card.pdf.
std::filesystem::path batch_file(const Batch& batch, const std::filesystem::path& recipe);
// Where all of them go when they share sheets: TO/cards-a4.pdf.
std::filesystem::path sheets_file(const Batch& batch);
// How many of the files to be written are there already.
std::size_t already_there(const Batch& batch);
// A recipe that fails is named and the rest are made. `progress` is called after each; stops early when told.
BatchResult write_batch(const Batch& batch, const std::stop_token& stop = {},
                        const std::function<void(const BatchResult&)>& progress = {});

}  // namespace battwright::app
