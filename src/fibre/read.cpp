#include "fibre/read.hpp"

#include <algorithm>
#include <cstdio>
#include <limits>
#include <set>
#include <utility>

#include "fibre/figures.hpp"
#include "measure/nearest.hpp"
#include "text/numbers.hpp"
#include "toml/complaints.hpp"

namespace battwright::fibre {
namespace {

constexpr std::int64_t newest_format = 1;

// A kind in the making, and which of its keys have been stated, by itself or by what it is like.
struct Draft {
    Kind kind;
    std::set<std::string, std::less<>> stated;
};

bool is_kebab(std::string_view id) {
    const auto fits = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; };
    return !id.empty() && id.front() != '-' && id.back() != '-' && std::all_of(id.begin(), id.end(), fits) &&
           id.find("--") == std::string_view::npos;
}

bool is_colour(std::string_view text) {
    const auto is_digit = [](char c) {
        return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
    };
    return text.size() == 7 && text[0] == '#' && std::all_of(text.begin() + 1, text.end(), is_digit);
}

bool is_a_number(const toml::Node& node) {
    return node.is(toml::Type::whole_number) || node.is(toml::Type::number);
}

std::string as_table(const char* key) {
    return std::string("write a table, as in ") + key + " = { staple = \"memory\" }";
}

class Reader {
  public:
    Reader(const std::string& path, const Catalogue& below) : complaints_(path), below_(below) {}

    measure::Expected<std::vector<Kind>> read(const toml::Table& root);

  private:
    void read_format(const toml::Table& root);
    void read_sources(const toml::Table& root);
    void read_bases(const toml::Table& root);
    void read_all(const toml::Table& root);
    void read_kind(const toml::Table& table);
    Draft read_draft(const toml::Table& table, Draft draft);
    Draft draft_like(const toml::Table& table);
    void read_number(const toml::Table& table, const Figure& figure, Draft& draft);
    void check_bounds(const toml::Node& node, const Figure& figure, double value);
    void read_words(const toml::Table& table, Draft& draft);
    template <class Value>
    void read_word(const toml::Table& table, std::string_view key,
                   std::optional<Value> (*from)(std::string_view), Value& value,
                   const std::vector<std::string>& known, Draft& draft);
    void read_text(const toml::Table& table, std::string_view key, std::string& value, Draft& draft);
    void read_colours(const toml::Table& table, Draft& draft);
    void read_own_sources(const toml::Table& table, Draft& draft);
    void read_published(const toml::Table& table, Draft& draft);
    void check_complete(const toml::Table& table, const Draft& draft);

    toml::Complaints complaints_;
    const Catalogue& below_;
    std::map<std::string, std::string, std::less<>> sources_{{"memory", "memory"},
                                                             {"practice", "common practice, no source"}};
    std::map<std::string, Draft, std::less<>> bases_;
    std::vector<Kind> kinds_;
};

// The keys a base may have; a kind has some more.
std::vector<std::string> known_keys(std::initializer_list<const char*> more = {}) {
    std::vector<std::string> keys(more.begin(), more.end());
    keys.insert(keys.end(), {"family", "form", "reclaimed", "staple_as", "published", "sources"});
    for (const std::string& name : figure_names()) keys.push_back(name);
    return keys;
}

// A figure stated anew loses the source of the one it replaces. Where there was none to replace, a base has
// said where its kinds' figures come from.
void state(Draft& draft, std::string_view key) {
    if (draft.stated.emplace(key).second) return;
    draft.kind.sources.erase(std::string(key));
    draft.kind.published.erase(std::string(key));
}

void Reader::read_format(const toml::Table& root) {
    const toml::Node* node = root.get("format");
    if (node == nullptr) {
        complaints_.missing(root, "the file has no format number", "write format = 1 on its first line");
        return;
    }
    const auto format = node->whole_number();
    if (!format) {
        complaints_.wrong_type(*node, "format", "write format = 1");
    } else if (*format != newest_format) {
        complaints_.complain(*node, "format " + std::to_string(*format) + " is not one this program reads",
                             "write format = 1, or use a newer battwright");
    }
}

void Reader::read_sources(const toml::Table& root) {
    const toml::Table* table = complaints_.subtable(root, "sources", as_table("sources"));
    if (table == nullptr) return;
    for (const auto& [key, value] : *table) {
        if (const auto text = complaints_.text(*table, key.text)) sources_[key.text] = *text;
    }
}

Draft Reader::draft_like(const toml::Table& table) {
    const auto like = complaints_.text(table, "like");
    if (!like) return {};
    if (const auto base = bases_.find(*like); base != bases_.end()) return base->second;
    const auto earlier =
        std::find_if(kinds_.rbegin(), kinds_.rend(), [&](const Kind& kind) { return kind.id == *like; });
    const Kind* kind = earlier != kinds_.rend() ? &*earlier : below_.find(*like);
    const std::vector<std::string> figure_keys = figure_names();
    if (kind != nullptr) {
        Draft draft{*kind, {figure_keys.begin(), figure_keys.end()}};
        draft.stated.insert({"family", "form"});
        return draft;
    }
    std::vector<std::string> known = below_.ids();
    for (const auto& base : bases_) known.push_back(base.first);
    for (const Kind& other : kinds_) known.push_back(other.id);
    std::string mend = measure::did_you_mean(*like, known);
    if (mend.empty()) mend = "write the id of a kind that stands above it or in the built-in catalogue";
    complaints_.complain(*table.get("like"), "no kind is called " + measure::quoted(*like), std::move(mend));
    // Missing figures would be told of one by one, though only the name is wrong.
    return {Kind{}, {figure_keys.begin(), figure_keys.end()}};
}

void Reader::check_bounds(const toml::Node& node, const Figure& figure, double value) {
    if (value >= figure.low && value <= figure.high) return;  // false for a NaN
    const std::string unit = figure.unit.empty() ? "" : ' ' + std::string(figure.unit);
    complaints_.complain(
        node, "the " + std::string(figure.noun) + " is out of range: " + text::figures(value, 6) + unit,
        "write " + text::figures(figure.low, 6) + " to " + text::figures(figure.high, 6) + unit + ", as in " +
            std::string(figure.key) + " = " + std::string(figure.example));
}

void Reader::read_number(const toml::Table& table, const Figure& figure, Draft& draft) {
    const toml::Node* node = table.get(figure.key);
    if (node == nullptr) return;
    state(draft, figure.key);
    const std::string as_in = "as in " + std::string(figure.key) + " = " + std::string(figure.example);
    std::optional<double> value;
    if (figure.parse == nullptr) {
        value = node->number();
        if (!value) complaints_.wrong_type(*node, figure.key, "write a number without quotes, " + as_in);
    } else if (!node->is(toml::Type::text)) {
        complaints_.wrong_type(*node, figure.key, "write it in quotes with its unit, " + as_in);
    } else if (const auto text = complaints_.text(table, figure.key)) {
        const auto parsed = figure.parse(*text);
        if (parsed) value = *parsed;
        if (!parsed) complaints_.complain(*node, parsed.error().what, parsed.error().mend);
    }
    if (!value) return;
    check_bounds(*node, figure, *value);
    draft.kind.*figure.value = *value * figure.scale;
}

template <class Value>
void Reader::read_word(const toml::Table& table, std::string_view key,
                       std::optional<Value> (*from)(std::string_view), Value& value,
                       const std::vector<std::string>& known, Draft& draft) {
    const auto word = complaints_.text(table, key);
    if (!word) return;
    draft.stated.emplace(key);
    if (const auto found = from(*word)) {
        value = *found;
        return;
    }
    std::string all;
    for (const std::string& one : known) all += (all.empty() ? "" : ", ") + one;
    complaints_.complain(*table.get(key), measure::quoted(*word) + " is no " + std::string(key),
                         "write one of " + all);
}

void Reader::read_words(const toml::Table& table, Draft& draft) {
    read_word(table, "family", family_from, draft.kind.family, family_words(), draft);
    read_word(table, "form", form_from, draft.kind.form, form_words(), draft);
    read_word(table, "staple_as", staple_as_from, draft.kind.staple_as, staple_as_words(), draft);
    read_word(table, "reclaimed", past_from, draft.kind.past, past_words(), draft);
}

void Reader::read_text(const toml::Table& table, std::string_view key, std::string& value, Draft& draft) {
    const auto text = complaints_.text(table, key);
    if (!text) return;
    state(draft, key);
    value = *text;
}

void Reader::read_colours(const toml::Table& table, Draft& draft) {
    if (!table.contains("colours")) return;
    state(draft, "colours");
    draft.kind.natural_colours = complaints_.texts(table, "colours");
    for (std::size_t i = 0; i < draft.kind.natural_colours.size(); ++i) {
        const std::string& colour = draft.kind.natural_colours[i];
        const toml::List* list = table.get("colours")->list();
        if (list == nullptr || !(*list)[i].is(toml::Type::text) || is_colour(colour)) continue;
        complaints_.complain((*list)[i], measure::quoted(colour) + " is no colour",
                             "write # and six hexadecimal digits, as in \"#efe6d2\"");
    }
}

void Reader::read_own_sources(const toml::Table& table, Draft& draft) {
    const toml::Table* own = complaints_.subtable(table, "sources", as_table("sources"));
    if (own == nullptr) return;
    complaints_.only(*own, "sources", figure_names());
    std::vector<std::string> known;
    for (const auto& source : sources_) known.push_back(source.first);
    for (const auto& [key, value] : *own) {
        const auto word = complaints_.text(*own, key.text);
        if (!word) continue;
        if (const auto source = sources_.find(*word); source != sources_.end()) {
            draft.kind.sources[key.text] = source->second;
            continue;
        }
        std::string mend = measure::did_you_mean(*word, known);
        if (mend.empty()) mend = "name it in the [sources] table, or write \"memory\"";
        complaints_.complain(value, "no source is called " + measure::quoted(*word), std::move(mend));
    }
}

// A range belongs to the figure beside it: what a kind is like does not hand it on once the figure is stated
// anew. A fleece's yield has a range and no figure: what one fleece gives is its owner's to say.
void Reader::read_published(const toml::Table& table, Draft& draft) {
    const toml::Table* ranges = complaints_.subtable(table, "published", as_table("published"));
    if (ranges == nullptr) return;
    std::vector<std::pair<std::string, double>> known{{"yield", 1.0}};
    for (const Figure& figure : figures()) known.emplace_back(figure.key, figure.scale);
    std::vector<std::string> names;
    for (const auto& [key, scale] : known) names.push_back(key);
    complaints_.only(*ranges, "published", names);
    for (const auto& [key, scale] : known) {
        const toml::Node* node = ranges->get(key);
        if (node == nullptr) continue;
        const toml::List* pair = node->list();
        const bool is_pair =
            pair != nullptr && pair->size() == 2 && is_a_number((*pair)[0]) && is_a_number((*pair)[1]);
        const Range range =
            is_pair ? Range{(*pair)[0].number().value_or(0.0), (*pair)[1].number().value_or(0.0)} : Range{};
        const double most = key == "yield" ? 100.0 : std::numeric_limits<double>::max();
        if (!is_pair || !(range.low >= 0.0 && range.low <= range.high && range.high <= most)) {
            complaints_.complain(*node, "the published " + key + " is no range",
                                 "write its low and high end, as in [75, 150]");
            continue;
        }
        draft.kind.published[key] = {range.low * scale, range.high * scale};
    }
}

Draft Reader::read_draft(const toml::Table& table, Draft draft) {
    read_words(table, draft);
    for (const Figure& figure : figures()) read_number(table, figure, draft);
    read_text(table, "label_eu", draft.kind.label_eu, draft);
    read_text(table, "label_us", draft.kind.label_us, draft);
    read_colours(table, draft);
    read_own_sources(table, draft);
    read_published(table, draft);
    return draft;
}

void Reader::read_bases(const toml::Table& root) {
    const toml::Table* bases = complaints_.subtable(root, "base", as_table("base"));
    if (bases == nullptr) return;
    for (const auto& [key, value] : *bases) {
        if (const toml::Table* table = value.table()) {
            complaints_.only(*table, "base " + measure::quoted(key.text), known_keys());
            bases_[key.text] = read_draft(*table, {});
        } else {
            complaints_.wrong_type(value, key.text, "start a table with [base." + key.text + "]");
        }
    }
}

void Reader::check_complete(const toml::Table& table, const Draft& draft) {
    std::vector<std::string> needed = figure_names();
    needed.insert(needed.begin(), "family");
    for (const std::string& key : needed) {
        if (draft.stated.contains(key)) continue;
        complaints_.missing(table, "the kind " + measure::quoted(draft.kind.id) + " has no " + key,
                            "write one, or say what it is like, as in like = \"corriedale\"");
        return;
    }
}

void Reader::read_kind(const toml::Table& table) {
    const auto id = complaints_.text(table, "id");
    if (!table.contains("id"))
        complaints_.missing(table, "a kind has no id", "write one, as in id = \"harbour-mule\"");
    if (id && !is_kebab(*id)) {
        complaints_.complain(*table.get("id"),
                             "the id " + measure::quoted(*id) + " is not in small letters and dashes",
                             "write it as in id = \"harbour-mule\"");
    }
    complaints_.only(table, "kind " + measure::quoted(id.value_or("")),
                     known_keys({"id", "name", "like", "also"}));
    Draft draft = read_draft(table, draft_like(table));
    draft.kind.id = id.value_or("");
    draft.kind.name = complaints_.text(table, "name").value_or(draft.kind.id);
    draft.kind.also = complaints_.texts(table, "also");
    if (id) check_complete(table, draft);
    kinds_.push_back(std::move(draft.kind));
}

void Reader::read_all(const toml::Table& root) {
    const toml::Node* node = root.get("kind");
    if (node == nullptr) {
        complaints_.missing(root, "the file holds no kind", "start one with [[kind]] on a line of its own");
        return;
    }
    const toml::List* array = node->list();
    const std::string mend = "start each with [[kind]] on a line of its own";
    if (array == nullptr) {
        complaints_.wrong_type(*node, "kind", mend);
        return;
    }
    for (const toml::Node& element : *array) {
        if (const toml::Table* table = element.table()) {
            read_kind(*table);
        } else {
            complaints_.wrong_type(element, "an entry of kind", mend);
        }
    }
}

measure::Expected<std::vector<Kind>> Reader::read(const toml::Table& root) {
    complaints_.only(root, "the file", {"format", "sources", "base", "kind"});
    read_format(root);
    read_sources(root);
    read_bases(root);
    read_all(root);
    if (const auto& complaint = complaints_.complaint()) return tl::make_unexpected(*complaint);
    return std::move(kinds_);
}

}  // namespace

std::vector<std::string> figure_names() {
    std::vector<std::string> names;
    for (const Figure& figure : figures()) names.emplace_back(figure.key);
    names.insert(names.end(), {"label_eu", "label_us", "colours"});
    return names;
}

measure::Expected<std::vector<Kind>> read_kinds(std::string_view text, const std::string& path,
                                                const Catalogue& below) {
    const auto root = toml::parse(text, path);
    if (!root) return tl::make_unexpected(root.error());
    return Reader(path, below).read(*root);
}

}  // namespace battwright::fibre
