// Edits of the spinning plan as pure functions, and what may be typed into its fields.
#include "app/yarn/yarn_edits.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "recipe/file.hpp"
#include "recipe/thickness.hpp"

using namespace battwright;
using recipe::Plying;
using recipe::ThicknessIn;

namespace {

app::Sheet sheet() {
    recipe::Recipe recipe;
    recipe.name = "Test Tide";
    recipe::Component component;
    component.content = {{"corriedale", 100.0}};
    component.amount = measure::Mass{60.0, measure::MassUnit::gram};
    recipe.components = {component};
    return app::sheet_of(recipe);
}

// Through the text of a file and back: the plan must be one that a recipe can say.
recipe::Spinning reread(const app::Sheet& sheet) {
    const auto text = recipe::write_text(sheet.recipe);
    const auto recipe = recipe::read_text(text, "by hand", fibre::Catalogue::builtin());
    if (!recipe) FAIL(measure::to_line(recipe.error()));
    return recipe->spinning;
}

void check_same(const recipe::Spinning& a, const recipe::Spinning& b) {
    CHECK(a.preparation == b.preparation);
    CHECK(a.plies == b.plies);
    CHECK(recipe::write_thickness(a.thickness) == recipe::write_thickness(b.thickness));
    CHECK(a.plying == b.plying);
    CHECK(a.twist == b.twist);
    CHECK(a.thread == b.thread);
    CHECK(a.wheel_ratio == b.wheel_ratio);
}

}  // namespace

TEST_CASE("every edit of the plan changes its own field, nothing of the batt, and can be written and read") {
    const auto before = sheet();
    const std::vector<app::Sheet> edited{
        app::set_preparation(before, recipe::Preparation::worsted),
        app::set_wraps(before, 14.5),
        app::set_thickness(before, {ThicknessIn::tex, 200.0, ""}),
        app::set_thickness(before, {ThicknessIn::class_name, 12.0, "fine"}),
        app::set_plies(before, 5),
        app::set_plies(before, 1),
        app::set_plying(before, Plying::chain),
        app::set_plying(before, Plying::barber_pole),
        app::set_plying(before, Plying::with_thread),
        app::set_twist(before, recipe::Twist::firm),
        app::set_wheel_ratio(before, 8.5),
        app::set_plies(app::set_plying(before, Plying::chain), 3),
        app::set_plying(app::set_plies(before, 4), Plying::chain),
    };
    for (const auto& after : edited) {
        CAPTURE(recipe::write_text(after.recipe));
        CHECK(after.recipe.spinning_written);
        CHECK_FALSE(after == before);
        check_same(reread(after), after.recipe.spinning);
        auto batt = after;
        batt.recipe.spinning = before.recipe.spinning;
        batt.recipe.spinning_written = false;
        CHECK(batt == before);
    }
}

TEST_CASE("plies and wraps are held within what can be planned") {
    CHECK(app::set_plies(sheet(), 0).recipe.spinning.plies == 1);
    CHECK(app::set_plies(sheet(), 99).recipe.spinning.plies == 12);
    CHECK(app::set_wraps(sheet(), 0.5).recipe.spinning.thickness.value == 2.0);
    CHECK(app::set_wraps(sheet(), 500.0).recipe.spinning.thickness.value == 120.0);
}

TEST_CASE("a thread comes in with the way that needs one, and stays only when it is her own") {
    const auto threaded = app::set_plying(sheet(), Plying::with_thread);
    REQUIRE(threaded.recipe.spinning.thread);
    CHECK(*threaded.recipe.spinning.thread == app::starting_thread());
    CHECK_FALSE(app::set_plying(threaded, Plying::chain).recipe.spinning.thread);

    const auto own = app::type_thread_count(threaded, "2/28 Nm");
    REQUIRE(own);
    // 2/28 Nm is two ends of 28 m to the gram: 2 * 1000 / 28 tex (ISO 1144 for tex).
    CHECK(own->recipe.spinning.thread->tex == doctest::Approx(2000.0 / 28.0).epsilon(1e-12));
    CHECK(own->recipe.spinning.thread->length_m == app::starting_thread_m);
    CHECK(app::set_plying(*own, Plying::chain).recipe.spinning.thread == own->recipe.spinning.thread);
    const auto without = app::set_thread(*own, std::nullopt);
    CHECK(without.recipe.spinning.plying == Plying::plied);
    CHECK(recipe::check(without.recipe, fibre::Catalogue::builtin()));
}

TEST_CASE("thickness is typed in wraps, in tex, as a class or as a bare number of wraps") {
    const auto typed = [](const char* text) {
        const auto after = app::type_thickness(sheet(), text);
        if (!after) FAIL(measure::to_line(after.error()));
        return after->recipe.spinning.thickness;
    };
    CHECK(typed("14 wpi").value == 14.0);
    CHECK(typed("14").in == ThicknessIn::wpi);
    CHECK(typed("14").value == 14.0);
    CHECK(typed("200 tex").in == ThicknessIn::tex);
    CHECK(typed("200 tex").value == 200.0);
    CHECK(typed("fine").in == ThicknessIn::class_name);
    CHECK(typed("fine").class_name == "fine");
    // Every name that is accepted in a file, as people write it and as it is shown beside the curve.
    for (const auto& name : recipe::thickness_names()) {
        CAPTURE(name.word);
        std::string loud(name.word);
        for (char& c : loud) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
        CHECK(typed(loud.c_str()).class_name == name.word);
        CHECK(typed((std::string(name.word) + " weight").c_str()).class_name == name.word);
    }
    for (int number = 0; number <= 7; ++number)
        CHECK(
            recipe::thickness_named(typed(("class " + std::to_string(number)).c_str()).class_name)->number ==
            number);
}

TEST_CASE("lengths of thread follow the unit on show, and a unit that is written wins") {
    const auto length = [](const char* text, measure::YarnLengthUnit unit) {
        const auto after = app::type_thread_length(app::set_plying(sheet(), Plying::with_thread), text, unit);
        if (!after) FAIL(measure::to_line(after.error()));
        return after->recipe.spinning.thread->length_m;
    };
    CHECK(length("400", measure::YarnLengthUnit::metre) == 400.0);
    // The international yard of 1959 is 0.9144 m.
    CHECK(length("400", measure::YarnLengthUnit::yard) == doctest::Approx(365.76).epsilon(1e-12));
    CHECK(length("400 m", measure::YarnLengthUnit::yard) == 400.0);
}

TEST_CASE("what cannot be planned is one complaint with a remedy") {
    const auto none = sheet();
    const auto threaded = app::set_plying(none, Plying::with_thread);
    const auto metre = measure::YarnLengthUnit::metre;
    const std::vector<measure::Expected<app::Sheet>> wrong{
        app::type_thickness(none, "400 wpi"),
        app::type_thickness(none, "0"),
        app::type_thickness(none, "thick"),
        app::type_thickness(none, ""),
        app::type_wheel_ratio(none, "quick"),
        app::type_wheel_ratio(none, "900:1"),
        app::type_wheel_ratio(none, "0"),
        app::type_wheel_ratio(none, "-3:1"),
        app::type_thread_count(threaded, "no. 8"),
        app::type_thread_length(threaded, "0 m", metre),
        app::type_thread_length(threaded, "1,5 m", metre),
        app::type_thread_length(threaded, "far", metre),
    };
    for (std::size_t i = 0; i < wrong.size(); ++i) {
        CAPTURE(i);
        REQUIRE_FALSE(wrong[i]);
        CHECK_FALSE(wrong[i].error().what.empty());
        CHECK_FALSE(wrong[i].error().mend.empty());
        CHECK(measure::to_line(wrong[i].error()).find('\n') == std::string::npos);
    }
    CHECK_FALSE(app::check_plan([] {
        recipe::Spinning threadless;
        threadless.plying = Plying::with_thread;
        return threadless;
    }()));
    CHECK(app::check_plan(recipe::Spinning{}));
}

TEST_CASE("a wheel is named as a ratio or a number, and forgotten when the field is emptied") {
    const auto named = app::type_wheel_ratio(sheet(), "8.5:1");
    REQUIRE(named);
    CHECK(named->recipe.spinning.wheel_ratio == 8.5);
    CHECK(app::type_wheel_ratio(sheet(), "12")->recipe.spinning.wheel_ratio == 12.0);
    CHECK_FALSE(app::type_wheel_ratio(*named, " ")->recipe.spinning.wheel_ratio);
}

TEST_CASE("what it is for: a size goes when the thing has none such, and the recipe keeps it in its file") {
    auto hat = app::set_purpose_size(app::set_purpose_thing(sheet(), "hat"), app::sizes_of("hat").back());
    hat = app::set_next_to_skin(hat, false);
    CHECK(hat != sheet());
    const auto text = recipe::write_text(hat.recipe);
    const auto read = recipe::read_text(text, "by hand", fibre::Catalogue::builtin());
    if (!read) FAIL(measure::to_line(read.error()));
    CHECK(read->purpose.thing == "hat");
    CHECK(read->purpose.size == hat.recipe.purpose.size);
    CHECK(read->purpose.next_to_skin == false);
    for (const std::string& thing : recipe::purpose_things()) {
        CAPTURE(thing);
        CHECK_FALSE(app::sizes_of(thing).empty());
        const auto other = app::set_purpose_thing(hat, thing).recipe.purpose;
        const auto sizes = app::sizes_of(thing);
        CHECK((other.size.empty() || std::find(sizes.begin(), sizes.end(), other.size) != sizes.end()));
    }
    CHECK(app::set_purpose_thing(hat, "").recipe.purpose.size.empty());
    // The twist goes with the thing until a person chooses one.
    CHECK(app::set_purpose_thing(sheet(), "socks").recipe.spinning.twist == recipe::Twist::firm);
    CHECK(app::set_purpose_thing(app::set_purpose_thing(sheet(), "socks"), "hat").recipe.spinning.twist ==
          recipe::Twist::medium);
    const auto chosen = app::set_twist(app::set_purpose_thing(sheet(), "socks"), recipe::Twist::soft);
    CHECK(app::set_purpose_thing(chosen, "hat").recipe.spinning.twist == recipe::Twist::soft);
}

TEST_CASE("the thread's fibre is read by the catalogue's ids, and goes again when the field is emptied") {
    const auto threaded = app::set_plying(sheet(), Plying::with_thread);
    const auto& catalogue = fibre::Catalogue::builtin();
    const auto cotton = app::type_thread_content(threaded, "corriedale 80 %; nylon 20", catalogue);
    if (!cotton) FAIL(measure::to_line(cotton.error()));
    REQUIRE(cotton->recipe.spinning.thread->content.size() == 2);
    CHECK(cotton->recipe.spinning.thread->content[0].share_pct == 80.0);
    CHECK(*cotton != threaded);
    check_same(reread(*cotton), cotton->recipe.spinning);
    const auto silk = app::type_thread_content(threaded, "Tussah Silk", catalogue);
    REQUIRE(silk);
    CHECK(silk->recipe.spinning.thread->content[0].fibre == "tussah-silk");
    CHECK_FALSE(app::type_thread_content(threaded, "moonbeams", catalogue));
    CHECK_FALSE(app::type_thread_content(threaded, "corriedale 80 %; nylon 30 %", catalogue));
    const auto emptied = app::type_thread_content(*cotton, " ", catalogue);
    REQUIRE(emptied);
    CHECK(emptied->recipe.spinning.thread->content.empty());
}

TEST_CASE("finished yarn is weighed in her own unit, and no weight is one complaint") {
    CHECK(app::type_yarn_weight("92 g", measure::MassUnit::ounce).value() == doctest::Approx(92.0));
    CHECK(app::type_yarn_weight("92", measure::MassUnit::gram).value() == doctest::Approx(92.0));
    // Exact by the international pound of 1959.
    CHECK(app::type_yarn_weight("4", measure::MassUnit::ounce).value() == doctest::Approx(113.398093));
    for (const char* wrong : {"", "0 g", "-3 g", "much", "2000 kg"}) {
        CAPTURE(wrong);
        const auto weight = app::type_yarn_weight(wrong, measure::MassUnit::gram);
        REQUIRE_FALSE(weight);
        CHECK_FALSE(weight.error().mend.empty());
    }
}
