#include "stash/validity.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "recipe/thickness.hpp"
#include "stash/date.hpp"
#include "stash/lots.hpp"
#include "stash/makings.hpp"
#include "stash/millionths.hpp"
#include "stash/movement.hpp"
#include "stash/shape.hpp"

namespace battwright::stash {
namespace {

// Problems as they are found, up to so many.
class Findings {
  public:
    Findings(std::vector<std::string>& lines, std::size_t most) : lines_(lines), most_(most) {}
    bool full() const { return lines_.size() >= most_; }
    void add(std::string line) {
        if (!full()) lines_.push_back(std::move(line));
    }
    // What the work says of a row is a finding about it.
    template <class Work>
    void hear(const std::string& row, const Work& work) {
        if (const auto done = guarded(work); !done) add(row + ": " + done.error().what);
    }

  private:
    std::vector<std::string>& lines_;
    std::size_t most_;
};

// The texts that may have several lines.
bool has_lines(const Column& column) {
    constexpr std::array<std::string_view, 6> many{"notes",  "note",          "recipe",
                                                   "became", "foretold_text", "value"};
    return std::find(many.begin(), many.end(), column.name) != many.end();
}

constexpr std::size_t longest_text = 1'000'000;

void check_text_column(const Database& database, const Column& column, Findings& problems) {
    Statement rows = database.prepare("SELECT " + column.name + " FROM " + column.table);
    while (!problems.full() && rows.step())
        problems.hear("a line of its table " + column.table, [&] {
            check_text(rows.bytes(0), column.name.c_str(), has_lines(column), longest_text);
        });
}

void check_real_column(const Database& database, const Column& column, Findings& problems) {
    Statement rows = database.prepare("SELECT " + column.name + " FROM " + column.table + " WHERE " +
                                      column.name + " IS NOT NULL");
    while (!problems.full() && rows.step())
        if (!std::isfinite(rows.real(0)))
            problems.add("a line of its table " + column.table + ": " + column.name + " is infinite");
}

bool is_amount(const Column& column) {
    return column.name == "micrograms" || column.name == "micrometres" || column.name == "cost";
}

void check_amount_column(const Database& database, const Column& column, Findings& problems) {
    Statement rows = database.prepare("SELECT count(*) FROM " + column.table + " WHERE " + column.name +
                                      " NOT BETWEEN ?1 AND ?2");
    // Sums of many purchases may go beyond what one may be.
    const std::int64_t most = 1000 * millionths(most_amount);
    rows.bind(-most, most);
    if (rows.step() && rows.whole(0) > 0)
        problems.add("a line of its table " + column.table + ": " + column.name + " is beyond all reason");
}

void check_columns(const Database& database, Findings& problems) {
    for (const Column& column : our_columns()) {
        if (column.type == "TEXT") check_text_column(database, column, problems);
        if (column.type == "REAL") check_real_column(database, column, problems);
        if (is_amount(column)) check_amount_column(database, column, problems);
    }
}

bool is_a_preparation(const std::string& word) {
    const auto& words = recipe::preparation_words();
    return std::find(words.begin(), words.end(), word) != words.end();
}

// A column whose texts have to be of a sort.
struct TextRule {
    const char* table;
    const char* column;
    const char* noun;
    bool (*holds)(const std::string& text);
};
bool is_date(const std::string& text) {
    return parse_date(text).has_value();
}
bool is_date_or_none(const std::string& text) {
    return text.empty() || is_date(text);
}
const std::array<TextRule, 15> sorts{
    {{"lot", "mark", "mark", [](const std::string& text) { return parse_mark(text) == text; }},
     {"lot", "form", "form",
      [](const std::string& text) {
          const auto form = parse_form(text);
          return form && word_for(*form) == text;
      }},
     {"lot", "got_on", "date", is_date_or_none},
     {"movement", "reason", "reason",
      [](const std::string& text) {
          const auto reason = parse_reason(text);
          return reason && word_for(*reason) == text;
      }},
     {"movement", "made_on", "date", is_date_or_none},
     {"batt", "preparation", "preparation", is_a_preparation},
     {"batt", "made_on", "date", is_date_or_none},
     {"batt", "taken_back_on", "date", is_date_or_none},
     {"off_drum", "made_on", "date", is_date_or_none},
     {"skein", "preparation", "preparation", is_a_preparation},
     {"skein", "made_on", "date", is_date_or_none},
     {"batt_photo", "made_on", "date", is_date_or_none},
     {"batt_photo", "taken", "way of taking a photo",
      [](const std::string& text) { return colour::parse_taken(text).has_value(); }},
     {"batt_photo", "unfit", "fault of a photo",
      [](const std::string& text) { return colour::parse_unfit(text).has_value(); }},
     {"setting", "key", "setting", [](const std::string& text) { return text == "currency"; }}}};

void check_sorts(const Database& database, Findings& problems) {
    for (const TextRule& sort : sorts) {
        Statement rows =
            database.prepare(std::string("SELECT DISTINCT ") + sort.column + " FROM " + sort.table);
        while (!problems.full() && rows.step())
            if (!sort.holds(rows.bytes(0)))
                problems.add(std::string("a line of its table ") + sort.table + ": " +
                             measure::quoted(rows.bytes(0)) + " is no " + sort.noun);
    }
}

// Ids are written in small letters, digits and hyphens.
bool could_be_a_kind(const std::string& id) {
    return !id.empty() && std::all_of(id.begin(), id.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    });
}

// The lot with the kinds nobody here knows as one that everybody knows, so that the rest is looked at too.
Lot with_known_kinds(Lot lot, const fibre::Catalogue& catalogue, Findings& remarks) {
    for (recipe::Content& content : lot.content) {
        if (catalogue.find(content.fibre) != nullptr || !could_be_a_kind(content.fibre)) continue;
        remarks.add("lot " + lot.mark + " is of a kind this catalogue does not have: " + content.fibre);
        content.fibre = catalogue.ids().front();
    }
    return lot;
}

void check_lots(const Database& database, const fibre::Catalogue& catalogue, Findings& problems,
                Findings& remarks) {
    const Shelf shelf = read_shelf(database);
    for (const auto& shelved : shelf.lots) {
        if (problems.full()) return;
        const Lot lot = with_known_kinds(shelved->lot, catalogue, remarks);
        if (const auto fault = fault_in(lot, catalogue)) problems.add("lot " + lot.mark + ": " + fault->what);
    }
}

void check_batts(const Database& database, Findings& problems) {
    for (const Batt& batt : read_batts(database)) {
        const Carding& carding = batt.carding;
        const bool sound = carding.batts >= 1 && carding.batts <= most_batts &&
                           carding.retained_share > 0.0 && carding.retained_share <= 1.0;
        if (!sound) problems.add("batt " + std::to_string(batt.id) + " has figures that cannot be");
    }
}

void check_skeins(const Database& database, Findings& problems) {
    for (const Skein& skein : read_skeins(database))
        problems.hear("skein " + std::to_string(skein.id), [&] { check_skein(database, skein); });
}

void check_photos(const Database& database, Findings& problems) {
    for (const BattPhoto& photo : read_photos(database))
        problems.hear("photo " + std::to_string(photo.id), [&] { check_photo(database, photo); });
}

}  // namespace

void check_rows(const Database& database, const fibre::Catalogue& catalogue, std::size_t most,
                std::vector<std::string>& problems, std::vector<std::string>& remarks) {
    Findings bad(problems, most), odd(remarks, most);
    check_columns(database, bad);
    check_sorts(database, bad);
    check_lots(database, catalogue, bad, odd);
    check_batts(database, bad);
    check_skeins(database, bad);
    check_photos(database, bad);
}

}  // namespace battwright::stash
