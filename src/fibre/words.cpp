// The words a catalogue file uses for families and forms, declared in fibre/catalogue.hpp.
#include "fibre/catalogue.hpp"
#include "measure/choices.hpp"

namespace battwright::fibre {
namespace {

constexpr std::array<measure::Word<Family>, 10> families{{
    {Family::wool, "wool"},
    {Family::hair, "hair"},
    {Family::silk, "silk"},
    {Family::bast, "bast"},
    {Family::cotton, "cotton"},
    {Family::regenerated, "regenerated"},
    {Family::synthetic, "synthetic"},
    {Family::sparkle, "sparkle"},
    {Family::inclusion, "inclusion"},
    {Family::unknown, "unknown"},
}};
constexpr std::array<measure::Word<Form>, 4> forms{{
    {Form::fibre, "fibre"},
    {Form::nep, "nep"},
    {Form::lock, "lock"},
    {Form::film, "film"},
}};
constexpr std::array<measure::Word<StapleAs>, 3> meanings{{
    {StapleAs::pulled, "pulled"},
    {StapleAs::fleece_to_top, "fleece to top"},
    {StapleAs::mean, "mean"},
}};
constexpr std::array<measure::Word<Past>, 4> pasts{{
    {Past::fleece, "never"},
    {Past::yarn, "yarn"},
    {Past::unsure, "unsure"},
    {Past::cloth, "cloth"},
}};
static_assert(measure::one_row_each(pasts) && measure::one_row_each(families) &&
              measure::one_row_each(forms) && measure::one_row_each(meanings));

template <class Row, std::size_t n>
std::optional<decltype(Row::value)> value_in(const std::array<Row, n>& rows, std::string_view word) {
    for (const Row& row : rows)
        if (row.word == word) return row.value;
    return std::nullopt;
}

}  // namespace

std::string_view word_for(Family family) {
    return measure::row_of(families, family).word;
}
std::string_view word_for(Form form) {
    return measure::row_of(forms, form).word;
}
std::string_view word_for(StapleAs meaning) {
    return measure::row_of(meanings, meaning).word;
}
std::string_view word_for(Past past) {
    return measure::row_of(pasts, past).word;
}
std::optional<Past> past_from(std::string_view word) {
    return value_in(pasts, word);
}
std::optional<Family> family_from(std::string_view word) {
    return value_in(families, word);
}
std::optional<Form> form_from(std::string_view word) {
    return value_in(forms, word);
}
const std::vector<std::string>& past_words() {
    static const std::vector<std::string> words = measure::words_of(pasts);
    return words;
}
const std::vector<std::string>& family_words() {
    static const std::vector<std::string> words = measure::words_of(families);
    return words;
}
const std::vector<std::string>& form_words() {
    static const std::vector<std::string> words = measure::words_of(forms);
    return words;
}
std::optional<StapleAs> staple_as_from(std::string_view word) {
    return value_in(meanings, word);
}
const std::vector<std::string>& staple_as_words() {
    static const std::vector<std::string> words = measure::words_of(meanings);
    return words;
}

}  // namespace battwright::fibre
