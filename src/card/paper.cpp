#include "card/paper.hpp"

#include <array>
#include <cctype>

namespace battwright::card {
namespace {

struct Known {
    Paper paper;
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

bool same(std::string_view a, std::string_view b) {
    if (a.size() != b.size()) return false;
    for (std::size_t i = 0; i < a.size(); ++i)
        if (std::tolower(static_cast<unsigned char>(a[i])) != std::tolower(static_cast<unsigned char>(b[i])))
            return false;
    return true;
}

const Known& find(Paper paper) {
    for (const Known& one : known)
        if (one.paper == paper) return one;
    return known.front();
}

}  // namespace

PaperSize size_of(Paper paper) {
    return find(paper).size;
}
std::string_view word_for(Paper paper) {
    return find(paper).word;
}

measure::Expected<Paper> parse_paper(std::string_view word) {
    for (const Known& one : known)
        if (same(one.word, word)) return one.paper;
    return tl::make_unexpected(measure::Complaint{"no page size " + measure::quoted(word),
                                                  "use A6, A5, A4, letter, index or tag", "--page"});
}

}  // namespace battwright::card
