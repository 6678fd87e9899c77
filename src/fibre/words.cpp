// The words a catalogue file uses for families and forms, declared in fibre/catalogue.hpp.
#include <algorithm>
#include <array>
#include <utility>

#include "fibre/catalogue.hpp"

namespace battwright::fibre {
namespace {

template <class Value, std::size_t size>
using Words = std::array<std::pair<Value, std::string_view>, size>;

constexpr Words<Family, 10> families{{{Family::wool, "wool"},
                                      {Family::hair, "hair"},
                                      {Family::silk, "silk"},
                                      {Family::bast, "bast"},
                                      {Family::cotton, "cotton"},
                                      {Family::regenerated, "regenerated"},
                                      {Family::synthetic, "synthetic"},
                                      {Family::sparkle, "sparkle"},
                                      {Family::inclusion, "inclusion"},
                                      {Family::unknown, "unknown"}}};

constexpr Words<Form, 4> forms{
    {{Form::fibre, "fibre"}, {Form::nep, "nep"}, {Form::lock, "lock"}, {Form::film, "film"}}};

constexpr Words<StapleAs, 3> meanings{
    {{StapleAs::pulled, "pulled"}, {StapleAs::fleece_to_top, "fleece to top"}, {StapleAs::mean, "mean"}}};

template <class Table, class Value>
std::string_view word_in(const Table& table, Value value) {
    const auto found =
        std::find_if(table.begin(), table.end(), [&](const auto& entry) { return entry.first == value; });
    return found == table.end() ? std::string_view() : found->second;
}

template <class Value, std::size_t size>
std::optional<Value> value_in(const Words<Value, size>& table, std::string_view word) {
    const auto found =
        std::find_if(table.begin(), table.end(), [&](const auto& entry) { return entry.second == word; });
    if (found == table.end()) return std::nullopt;
    return found->first;
}

}  // namespace

std::string_view word_for(Family family) {
    return word_in(families, family);
}
std::string_view word_for(Form form) {
    return word_in(forms, form);
}
std::string_view word_for(StapleAs meaning) {
    return word_in(meanings, meaning);
}
std::optional<Family> family_from(std::string_view word) {
    return value_in(families, word);
}
std::optional<Form> form_from(std::string_view word) {
    return value_in(forms, word);
}
std::optional<StapleAs> staple_as_from(std::string_view word) {
    return value_in(meanings, word);
}

}  // namespace battwright::fibre
