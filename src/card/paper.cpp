#include "card/paper.hpp"

#include "measure/choices.hpp"

namespace battwright::card {
namespace {

struct Known {
    Paper value;
    std::string_view word;
    PaperSize size;
};
constexpr std::array<Known, 6> known{{
    {Paper::a6, "A6", {105.0, 148.0, 7.0, 8.0}},
    {Paper::a5, "A5", {148.0, 210.0, 10.0, 9.5}},
    {Paper::a4, "A4", {210.0, 297.0, 15.0, 11.0}},
    {Paper::letter, "letter", {215.9, 279.4, 15.0, 11.0}},
    {Paper::index, "index", {152.4, 101.6, 7.0, 8.0}},
    {Paper::tag, "tag", {60.0, 100.0, 5.0, 7.5}},
}};
static_assert(measure::one_row_each(known));

}  // namespace

PaperSize size_of(Paper paper) {
    return measure::row_of(known, paper).size;
}
std::string_view word_for(Paper paper) {
    return measure::row_of(known, paper).word;
}

measure::Expected<Paper> parse_paper(std::string_view word) {
    auto paper = measure::parse_word(known, word, "page size");
    if (!paper) paper.error().where = "--page";
    return paper;
}

}  // namespace battwright::card
