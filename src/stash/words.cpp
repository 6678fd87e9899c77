// The words for forms, reasons and things, and marks as people type them.
#include <algorithm>
#include <cctype>

#include "measure/choices.hpp"
#include "stash/lookup.hpp"
#include "stash/lot.hpp"
#include "stash/movement.hpp"

namespace battwright::stash {
namespace {

constexpr std::array<measure::Word<Form>, 12> forms{{
    {Form::top, "top"},
    {Form::roving, "roving"},
    {Form::sliver, "sliver"},
    {Form::braid, "braid"},
    {Form::batt, "batt"},
    {Form::locks, "locks"},
    {Form::fleece, "fleece"},
    {Form::noils, "noils"},
    {Form::neps, "neps"},
    {Form::sparkle, "sparkle"},
    {Form::thread, "thread"},
    {Form::other, "other"},
}};
constexpr std::array<measure::Word<Reason>, 8> reasons{{
    {Reason::bought, "bought"},
    {Reason::carded, "carded"},
    {Reason::taken_back, "taken back"},
    {Reason::wasted, "wasted"},
    {Reason::given, "given"},
    {Reason::scoured, "scoured"},
    {Reason::weighed, "weighed"},
    {Reason::corrected, "corrected"},
}};
constexpr std::array<measure::Word<Thing>, 3> things{{
    {Thing::lot, "lot"},
    {Thing::batt, "batt"},
    {Thing::skein, "skein"},
}};
static_assert(measure::one_row_each(forms) && measure::one_row_each(reasons) &&
              measure::one_row_each(things));

template <class Row, std::size_t size>
measure::Expected<decltype(Row::value)> parse_in(const std::array<Row, size>& rows, std::string_view text,
                                                 const char* noun) {
    auto value = measure::parse_word(rows, text, noun);
    if (!value) value.error().where = noun;
    return value;
}

}  // namespace

std::string_view word_for(Form form) {
    return measure::row_of(forms, form).word;
}
const std::vector<std::string>& form_words() {
    static const std::vector<std::string> words = measure::words_of(forms);
    return words;
}
measure::Expected<Form> parse_form(std::string_view text) {
    return parse_in(forms, text, "form");
}

std::string_view word_for(Reason reason) {
    return measure::row_of(reasons, reason).word;
}
measure::Expected<Reason> parse_reason(std::string_view text) {
    return parse_in(reasons, text, "reason");
}

std::string_view word_for(Thing thing) {
    return measure::row_of(things, thing).word;
}

measure::Expected<std::string> parse_mark(std::string_view text) {
    std::string mark;
    bool letter = false;
    bool sound = true;
    for (const char c : text) {
        if (c == ' ' || c == '-') continue;
        const char upper = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
        sound = sound && mark_alphabet.find(upper) != std::string_view::npos;
        letter = letter || std::isalpha(static_cast<unsigned char>(upper)) != 0;
        mark += upper;
    }
    if (sound && letter && mark.size() == mark_length) return mark;
    return tl::make_unexpected(measure::Complaint{
        "the mark " + measure::quoted(text) + " is none",
        "write the six characters on the bag's tag, of " + std::string(mark_alphabet), "mark"});
}

}  // namespace battwright::stash
