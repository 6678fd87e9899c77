// A blending board and hand cards: what a pass does there, held against models written out by hand and
// against what is said of these tools in print.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

#include "carding/flat.hpp"
#include "carding/loss.hpp"
#include "carding/pull.hpp"
#include "carding/refold.hpp"
#include "making.hpp"

using namespace battwright::carding;
namespace recipe = battwright::recipe;

namespace {

// `count` even portions of a middling wool on a preset tool.
Setup laid_on(const char* tool, std::size_t count, Manner manner, double grams) {
    Setup setup = battwright::testing::setup_of(count, manner);
    const recipe::Carder& carder = *recipe::find_carder(tool);
    setup.tool = carder.kind;
    setup.circumference_mm = carder.drum_circumference_mm;
    setup.width_mm = carder.width_mm;
    for (Portion& portion : setup.portions) portion.grams = grams / static_cast<double>(count);
    setup.spread = spread_of(carder, setup.portions, grams, false);
    setup.opening = opening_of(carder, setup.portions, grams, false);
    setup.reach_share = 0.4;
    setup.feed.tool = carder.kind;
    setup.lays = lays_of_setup(setup);
    for (Lay& lay : setup.lays) lay.on_drum = carder.kind == ToolKind::board;
    return setup;
}

Setup without_spread(Setup setup) {
    setup.spread = {};
    setup.opening = {};
    return setup;
}

// How often the larger portion changes from the teeth outwards in one column.
int layers_in(const Field& field, std::size_t x, std::size_t y) {
    int layers = 1;
    for (std::size_t z = 1; z < field.grid.depth; ++z)
        layers += (field.at(0, x, y, z) > 0.5) != (field.at(0, x, y, z - 1) > 0.5) ? 1 : 0;
    return layers;
}

double share_in(const Field& field, std::size_t portion, double from, double to) {
    return box_mean(field, {0.0, 1.0, from, to, 0.0, 1.0})[portion];
}

}  // namespace

TEST_CASE("a transfer between hand cards keeps the fibre, and turns it over") {
    for (const double reach : {0.05, 0.3, 0.6, 1.0}) {
        CAPTURE(reach);
        const Transfer transfer = transfer_of(24, reach);
        for (std::size_t i = 0; i < 24; ++i) {
            double row = 0.0, column = 0.0;
            for (std::size_t j = 0; j < 24; ++j) {
                CHECK(transfer.weights[i * 24 + j] >= 0.0);
                row += transfer.weights[i * 24 + j];
                column += transfer.weights[j * 24 + i];
            }
            CHECK(row == doctest::Approx(1.0));
            CHECK(column == doctest::Approx(1.0));
        }
    }
    // All of it within reach: each stroke takes half of everything there is, so nothing keeps its depth.
    // Only what is taken over in one, a sixteenth, keeps its order.
    const Transfer all = transfer_of(24, 1.0);
    for (std::size_t to = 0; to < 22; ++to)
        for (std::size_t from = 0; from < 24; ++from)
            CHECK(all.weights[to * 24 + from] == doctest::Approx(1.0 / 24.0));
}

TEST_CASE("a transfer is what single fibres do that go over by chance, half of those within reach a stroke") {
    // The same rule drawn fibre by fibre, in no cells.
    constexpr int fibres = 60000, cells = 12;
    constexpr double reach = 0.35;
    std::mt19937 random(7);
    std::bernoulli_distribution goes(0.5);
    std::vector<double> left(fibres), over;
    for (int i = 0; i < fibres; ++i) left[static_cast<std::size_t>(i)] = (i + 0.5) / fibres;  // ascending
    for (int stroke = 0; stroke < 12 && left.size() > fibres / 10; ++stroke) {
        const auto within = static_cast<std::size_t>(reach * fibres);
        const std::size_t from = left.size() > within ? left.size() - within : 0;
        std::vector<double> stays(left.begin(), left.begin() + static_cast<std::ptrdiff_t>(from)), gone;
        for (std::size_t i = from; i < left.size(); ++i) (goes(random) ? gone : stays).push_back(left[i]);
        std::shuffle(gone.begin(), gone.end(), random);
        over.insert(over.end(), gone.begin(), gone.end());
        left = stays;
    }
    over.insert(over.end(), left.rbegin(), left.rend());  // a web, face down
    const Transfer transfer = transfer_of(96, reach);
    for (int to = 0; to < cells; ++to) {
        double drawn = 0.0, foretold = 0.0;  // the mean old depth of what lies there now
        for (int i = to * fibres / cells; i < (to + 1) * fibres / cells; ++i)
            drawn += over[static_cast<std::size_t>(i)] * cells / fibres;
        for (std::size_t z = static_cast<std::size_t>(to) * 8; z < static_cast<std::size_t>(to + 1) * 8; ++z)
            for (std::size_t from = 0; from < 96; ++from)
                foretold += transfer.weights[z * 96 + from] * (static_cast<double>(from) + 0.5) / 96.0 / 8.0;
        CAPTURE(to);
        CHECK(foretold == doctest::Approx(drawn).epsilon(0.03).scale(0.0));
    }
    CHECK(over.front() > 0.6);
}

TEST_CASE("a thin load on hand cards is mixed more by a transfer than a thick one") {
    // Published how-to pages: too much fibre at once makes it harder to card.
    const auto left_of_two_layers = [](double reach) {
        const Transfer transfer = transfer_of(48, reach);
        double variance = 0.0;
        for (std::size_t to = 0; to < 48; ++to) {
            double upper = 0.0;
            for (std::size_t from = 24; from < 48; ++from) upper += transfer.weights[to * 48 + from];
            variance += (upper - 0.5) * (upper - 0.5) / 48.0;
        }
        return variance / 0.25;
    };
    CHECK(left_of_two_layers(0.6) < left_of_two_layers(0.4));
    CHECK(left_of_two_layers(0.4) < left_of_two_layers(0.15));
    CHECK(left_of_two_layers(0.01) > 0.7);
}

TEST_CASE("tufts on hand cards are parted stroke by stroke: a third of their mass is left") {
    // Fibre by fibre: each stroke halves the tuft it sits in and takes it over or not by a coin.
    std::mt19937 random(3);
    std::bernoulli_distribution goes(0.5);
    double mass = 0.0;
    constexpr int fibres = 200000;
    for (int i = 0; i < fibres; ++i) {
        double tuft = 1.0;
        do tuft *= 0.5;
        while (!goes(random));
        mass += tuft / fibres;
    }
    Portion wool;
    wool.grams = 5.0;
    wool.diameter_um = 21.0;
    wool.slipperiness = 0.2;
    const auto opening = opening_of(*recipe::find_carder("hand-cards"), std::vector{wool}, 5.0, false);
    CHECK(opening.shrink == doctest::Approx(mass).epsilon(0.02).scale(0.0));
}

TEST_CASE("on a board strips laid one over another multiply the layers: the baker's map") {
    // Ottino, The Kinematics of Mixing: stretching and stacking k times gives k times the striations.
    Setup setup = without_spread(laid_on("blending-board", 2, Manner::layers, 30.0));
    setup.grid = {4, 60, 96};
    setup.passes = 2;
    for (const int strips : {2, 3, 4}) {
        setup.strips = strips;
        const auto passes = simulate(setup, 1);
        CAPTURE(strips);
        CHECK(layers_in(passes[0].field, 1, 30) == 2);
        CHECK(layers_in(passes[1].field, 1, 30) == 2 * strips);
    }
}

TEST_CASE("a board's stripes stay stripes when the batt goes back as it lay, and its layers do not") {
    Setup setup = laid_on("blending-board", 3, Manner::stripes_across, 30.0);
    setup.feed.overlap = 0.0;
    setup.lays.clear();
    setup.lays = lays_of_setup(setup);
    for (Lay& lay : setup.lays) lay.on_drum = true;
    setup.feed.refeed = Refeed::own_places;
    setup.passes = 4;
    const auto passes = simulate(setup, 1);
    // The fibre keeps to its gap between the teeth, 3 mm on this cloth: within the middle of a stripe of
    // 100 mm nothing of its neighbour's arrives, on any pass.
    for (const Pass& pass : passes) {
        CHECK(share_in(pass.field, 0, 0.05, 0.28) > 0.99);
        CHECK(share_in(pass.field, 1, 0.40, 0.60) > 0.99);
        CHECK(share_in(pass.field, 2, 0.72, 0.95) > 0.99);
    }
    Setup layers = laid_on("blending-board", 3, Manner::layers, 30.0);
    layers.passes = 4;
    const auto mixed = simulate(layers, 1);
    CHECK(intensity(mixed[3].field) < 0.5 * intensity(mixed[0].field));
    CHECK(intensity(passes[3].field) > 0.8 * intensity(passes[0].field));
}

TEST_CASE("by hand no fibre is made or lost, whatever is laid, on whatever pass, and however it goes back") {
    for (const char* tool : {"blending-board", "hand-cards"}) {
        for (const auto& row : recipe::refeeds) {
            Setup setup = laid_on(tool, 3, Manner::layers, 20.0);
            setup.feed.refeed = row.value;
            setup.grid = coarse_grid;
            setup.passes = 3;
            setup.lays.back().pass = 2;
            setup.lays.back().lies = recipe::Lies::over;
            setup.portions[setup.lays.back().portion].pass = 2;
            const auto passes = simulate(setup, 1);
            CAPTURE(tool);
            CAPTURE(row.word);
            REQUIRE(passes.size() == 3);
            for (const std::size_t i : {std::size_t{1}, std::size_t{2}})
                for (std::size_t p = 0; p < 3; ++p)
                    CHECK(mean_share(passes[i].field, p) == doctest::Approx(1.0 / 3.0).epsilon(1e-9));
        }
    }
}

TEST_CASE("more transfers, more even; and what is added later lies over what is there") {
    Setup setup = laid_on("hand-cards", 2, Manner::layers, 5.0);
    setup.passes = 6;
    const auto passes = simulate(setup, 1);
    double before = 2.0;
    for (const Pass& pass : passes) {
        CHECK(pass.field.grid.round == 1);
        const double now = intensity_at(pass.field, 100.0);
        CHECK(now < before);
        before = now;
    }
    CHECK(before < 0.1);  // of the first transfer's
}

TEST_CASE(
    "rolags off a board: what lies across comes in order in each, what lies along from one to the next") {
    Setup setup = laid_on("blending-board", 2, Manner::gradient_across, 30.0);
    setup.passes = 1;
    const auto across = sequence_of(simulate(setup, 1).front().field, Pull::torn_across, 3, 5.0);
    const std::size_t steps = across.steps() / 3;
    for (std::size_t rolag = 0; rolag < 3; ++rolag) {
        CHECK(across.at(rolag * steps)[0] > 0.9);
        CHECK(across.at(rolag * steps + steps - 1)[0] < 0.1);
    }
    setup.feed.manner = Manner::gradient_round;
    setup.lays.clear();
    setup.lays = lays_of_setup(setup);
    const auto along = sequence_of(simulate(setup, 1).front().field, Pull::torn_across, 3, 5.0);
    CHECK(along.at(steps / 2)[0] > 0.8);
    CHECK(along.at(2 * steps + steps / 2)[0] < 0.2);
    CHECK(std::abs(along.at(0)[0] - along.at(steps - 1)[0]) < 0.1);
}

TEST_CASE("nothing lies along hand cards or is kept by a licker-in there, and less is broken") {
    std::vector<Portion> portions(1);
    recipe::Strand strand;
    strand.kind = battwright::fibre::Catalogue::builtin().share("corriedale");
    strand.fibre_mm = 65.0;
    strand.staple_cv = 0.35;
    strand.grams = strand.mass_share = strand.count_share = 1.0;
    strand.staple_mm = 85.0;
    strand.diameter_um = 25.0;
    portions[0].strands = {0};
    portions[0].grams = 1.0;
    portions[0].staple_mm = 20.0;  // the licker-in's
    portions[0].diameter_um = 25.0;
    const std::vector strands{strand};
    const double drum = wear_of(portions, strands, 3, ToolKind::drum).length_share;
    const double cards = wear_of(portions, strands, 3, ToolKind::hand_cards).length_share;
    const double board = wear_of(portions, strands, 3, ToolKind::board).length_share;
    CHECK(drum < cards);
    CHECK(cards < board);
    CHECK(board < 1.0);
    CHECK(kept_shares(portions, strands, 3, ToolKind::drum)[0] <
          kept_shares(portions, strands, 3, ToolKind::hand_cards)[0]);
}
