// Photos of batts in the record, and what they teach: the closed forms of the normal model (Gelman and
// others, Bayesian Data Analysis, 2.5 and 3.3), written out here.
#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "shelves.hpp"

using namespace shelves;

namespace {

// A picture of its own each time.
stash::BattPhoto sample_photo(double log_m, double sd, std::optional<double> log_mixing = {}) {
    static int taken = 0;
    stash::BattPhoto photo;
    photo.name = "Three pinches";
    photo.recipe = "format = 1\n";
    photo.date = "2024-06-01";
    photo.photo = "/pictures/pinch-" + std::to_string(++taken) + ".jpg";
    photo.taken = colour::Taken::sample;
    photo.mm_per_pixel = 0.2 + 0.001 * taken;
    photo.seen.mean = {50.0, 4.0, -7.0};
    photo.seen.patches = 14;
    photo.seen.variation_de00 = 1.5;
    photo.seen.streak_mm = 3.5;
    photo.foretold = {51.0, 4.5, -6.0};
    photo.foretold_variation_de00 = 1.2;
    photo.log_m = stash::LogFigure{log_m, sd};
    if (log_mixing)
        photo.log_mixing = colour::CurvedSighting{std::log(1.5), 0.3, *log_mixing, 0.75, 0.125, -0.25};
    photo.misfit = 0.8;
    photo.model = stash::photo_model;
    return photo;
}
const double usual_log_m = std::log(0.15);

}  // namespace

TEST_CASE("a photo comes back as it was logged, changed and removed") {
    const Folder folder;
    stash::Stash stash = opened(folder / "s.db");
    const auto logged = got(stash.log(sample_photo(-1.8, 0.4, 0.2)));
    CHECK(logged.id > 0);
    auto photo = got(stash.photo(logged.id));
    CHECK(photo.taken == colour::Taken::sample);
    CHECK(photo.seen.mean.b == -7.0);
    CHECK(photo.seen.streak_mm == 3.5);
    CHECK(photo.log_m->at == -1.8);
    CHECK(photo.log_mixing->sd == 0.3);
    CHECK(photo.log_mixing->bend == 0.125);
    CHECK(photo.log_mixing->by_other == -0.25);
    CHECK(photo.log_mixing->seen == doctest::Approx(std::log(1.5)));
    CHECK_FALSE(photo.batt.has_value());
    photo.counts = false;
    photo.note = "left out";
    got(stash.change(photo));
    CHECK_FALSE(got(stash.photo(logged.id)).counts);
    CHECK(got(stash.hands()).hands.m.count() == 0);
    CHECK(got(stash.photos()).size() == 1);
    check_sound(stash);
    got(stash.remove_photo(logged.id));
    CHECK(got(stash.photos()).empty());
    CHECK_FALSE(stash.photo(logged.id).has_value());
}

TEST_CASE("what cannot be is kept out") {
    const Folder folder;
    stash::Stash stash = opened(folder / "s.db");
    auto photo = sample_photo(-1.8, 0.4);
    photo.recipe.clear();
    CHECK_FALSE(stash.log(photo).has_value());
    photo = sample_photo(std::nan(""), 0.4);
    CHECK_FALSE(stash.log(photo).has_value());
    photo = sample_photo(-1.8, 0.0);
    CHECK_FALSE(stash.log(photo).has_value());
    photo = sample_photo(-1.8, 0.4);
    photo.batt = 77;
    CHECK_FALSE(stash.log(photo).has_value());
    CHECK(got(stash.photos()).empty());
}

TEST_CASE("the update is that of a normal mean, in any order") {
    // Precisions add; the mean is weighted by them.
    std::vector<stash::BattPhoto> photos{sample_photo(-1.7, 0.4), sample_photo(-2.1, 0.2),
                                         sample_photo(-1.9, 0.5)};
    for (std::size_t i = 0; i < photos.size(); ++i) photos[i].id = static_cast<std::int64_t>(i + 1);
    const double precision = 1.0 / 0.09 + 1.0 / 0.16 + 1.0 / 0.04 + 1.0 / 0.25;
    const double mean = (usual_log_m / 0.09 - 1.7 / 0.16 - 2.1 / 0.04 - 1.9 / 0.25) / precision;
    // Weighted squares about the mean, the prior's saying among them.
    const double squares = std::pow(usual_log_m - mean, 2.0) / 0.09 + std::pow(-1.7 - mean, 2.0) / 0.16 +
                           std::pow(-2.1 - mean, 2.0) / 0.04 + std::pow(-1.9 - mean, 2.0) / 0.25;
    const double freedom = stash::photo_prior_freedom;
    const double sd = std::sqrt((freedom + squares) / (freedom + 3.0) / precision);
    std::sort(photos.begin(), photos.end(), [](const auto& a, const auto& b) { return a.id < b.id; });
    do {
        const auto learnt = stash::hands_from(photos);
        CHECK(learnt.questions.empty());
        CHECK(learnt.hands.m.mean() == doctest::Approx(mean));
        CHECK(learnt.hands.m.sd() == doctest::Approx(sd));
    } while (std::next_permutation(photos.begin(), photos.end(),
                                   [](const auto& a, const auto& b) { return a.id < b.id; }));
}

TEST_CASE("the same picture twice counts once, whichever was logged first") {
    const Folder folder;
    stash::Stash stash = opened(folder / "s.db");
    const auto photo = sample_photo(-1.6, 0.2);
    auto first = got(stash.log(photo));
    const auto once = got(stash.hands()).hands;
    const auto again = got(stash.log(photo));
    auto marked_otherwise = photo;
    marked_otherwise.seen.mean.l = 52.0;
    got(stash.log(marked_otherwise));
    const auto learnt = got(stash.hands());
    CHECK(learnt.hands == once);
    REQUIRE(learnt.repeats.size() == 2);
    CHECK(learnt.repeats[0].photo == again.id);
    CHECK(learnt.repeats[0].of == first.id);
    CHECK(stash::why_not(again, learnt)->in_short == "as photo " + std::to_string(first.id));
    CHECK_FALSE(stash::why_not(first, learnt));
    // The one that is left speaks.
    first.counts = false;
    got(stash.change(first));
    CHECK(got(stash.hands()).hands == once);
    got(stash.log(sample_photo(-1.6, 0.2)));
    CHECK(got(stash.hands()).hands.m.count() == 2);
}

TEST_CASE("a batt counts once: n photos of it say what one with their mean says") {
    std::vector<stash::BattPhoto> photos{sample_photo(-1.7, 0.4), sample_photo(-1.9, 0.4),
                                         sample_photo(-2.1, 0.4), sample_photo(-1.8, 0.3)};
    for (std::size_t i = 0; i < photos.size(); ++i) {
        photos[i].id = static_cast<std::int64_t>(i + 1);
        photos[i].batt = i < 3 ? 7 : 8;
    }
    const auto three = stash::hands_from(photos);
    CHECK(three.hands.m.count() == 2);
    CHECK(three.hands.m.photos() == 4);
    auto mean_alone = photos;
    mean_alone[0].log_m->at = -1.9;
    mean_alone.erase(mean_alone.begin() + 1, mean_alone.begin() + 3);
    const auto one = stash::hands_from(mean_alone);
    // Precisions add (Gelman and others, 2.5): three thirds of one.
    CHECK(three.hands.m.mean() == doctest::Approx(one.hands.m.mean()));
    // How they spread about their mean still tells of the scale of the errors.
    CHECK(three.hands.m.sd() > one.hands.m.sd());
}

TEST_CASE("the odd one is asked about and teaches nothing until it is confirmed") {
    const Folder folder;
    stash::Stash stash = opened(folder / "s.db");
    for (const double at : {-1.95, -1.9, -1.85}) got(stash.log(sample_photo(at, 0.2)));
    const double before = got(stash.hands()).hands.m.mean();
    auto odd = got(stash.log(sample_photo(-0.4, 0.2)));
    auto learnt = got(stash.hands());
    REQUIRE(learnt.questions.size() == 1);
    CHECK(learnt.questions[0].photo == odd.id);
    CHECK(learnt.questions[0].others == 3);
    CHECK(stash::question_words(learnt.questions[0]).find("disagrees with what the others taught") !=
          std::string::npos);
    CHECK(learnt.hands.m.mean() == before);
    odd.confirmed = true;
    got(stash.change(odd));
    learnt = got(stash.hands());
    CHECK(learnt.questions.empty());
    CHECK(learnt.hands.m.mean() > before + 0.1);
    odd.counts = false;
    got(stash.change(odd));
    CHECK(got(stash.hands()).hands.m.mean() == before);
    auto other = sample_photo(-1.9, 0.3);
    other.misfit = 4.0;
    got(stash.log(other));
    learnt = got(stash.hands());
    REQUIRE(learnt.questions.size() == 1);
    CHECK(learnt.questions[0].about == stash::Odd::colour);
}

TEST_CASE("photos that are not fit, of another model or of a batt taken back teach nothing") {
    const Folder folder;
    stash::Stash stash = opened(folder / "s.db");
    auto photo = sample_photo(-1.2, 0.2);
    photo.seen.unfit = colour::Unfit::lamp_light;
    got(stash.log(photo));
    photo = sample_photo(-1.2, 0.2);
    photo.model = stash::photo_model + 1;
    got(stash.log(photo));
    CHECK(got(stash.hands()).hands.m.count() == 0);
    photo = sample_photo(-1.7, 0.2);
    photo.date = "2024-09-01";
    got(stash.log(photo));
    CHECK(got(stash.hands("2024-08-31")).hands.m.count() == 0);
    CHECK(got(stash.hands("2024-09-01")).hands.m.count() == 1);
    CHECK_FALSE(stash.hands("never").has_value());
}

TEST_CASE("a photo of a batt taken back teaches nothing, and each that does not is told why") {
    const Folder folder;
    stash::Stash stash = opened(folder / "s.db");
    const auto lot = got(stash.add(wool(), 100.0));
    const auto batt = got(stash.card_it(carding({{lot.mark, 30.0}})));
    auto photo = sample_photo(-1.7, 0.2);
    const auto taught = got(stash.log(photo));
    photo = sample_photo(-1.7, 0.2);
    photo.batt = batt.id;
    const auto of_batt = got(stash.log(photo));
    CHECK(of_batt.standing);
    auto learnt = got(stash.hands());
    CHECK(learnt.believed == std::vector<std::int64_t>{taught.id, of_batt.id});
    CHECK_FALSE(stash::why_not(of_batt, learnt).has_value());
    got(stash.take_back(batt.id));
    const auto orphan = got(stash.photo(of_batt.id));
    CHECK_FALSE(orphan.standing);
    const auto photos = got(stash.photos());
    REQUIRE(photos.size() == 2);
    learnt = got(stash.hands());
    CHECK(learnt.believed == std::vector<std::int64_t>{taught.id});
    CHECK(stash::hands_from(photos).hands == learnt.hands);
    const auto why = [&](stash::BattPhoto one, auto change) {
        change(one);
        const auto told = stash::why_not(one, learnt);
        REQUIRE(told.has_value());
        CHECK_FALSE(told->words.empty());
        CHECK_FALSE(told->asked);
        return told->in_short;
    };
    CHECK(why(orphan, [](auto&) {}) == "batt taken back");
    CHECK(why(taught, [](auto& one) { one.counts = false; }) == "left out");
    CHECK(why(taught, [](auto& one) { one.model = stash::photo_model + 1; }) == "another version's forecast");
    CHECK(why(taught, [](auto& one) { one.seen.unfit = colour::Unfit::lamp_light; }) == "lamp-light");
    CHECK(why(taught, [](auto& one) {
              one.log_m.reset();
              one.log_mixing.reset();
          }) == "says nothing");
    CHECK_FALSE(stash::why_not(taught, learnt).has_value());
    auto odd = sample_photo(-0.2, 0.2);
    odd.misfit = 4.0;
    odd = got(stash.log(odd));
    learnt = got(stash.hands());
    const auto asked = stash::why_not(odd, learnt);
    REQUIRE(asked.has_value());
    CHECK(asked->asked);
    CHECK(asked->words.find(stash::question_words(learnt.questions.at(0))) != std::string::npos);
}

TEST_CASE("simulated spinners: the record's own ranges hold four truths in five, with odd ones set aside") {
    // Drawn from the model as stated: a scale whose inverse square is gamma, a truth, photos about it.
    std::mt19937_64 random(20'261'126);
    std::normal_distribution<double> normal(0.0, 1.0);
    std::gamma_distribution<double> gamma(stash::photo_prior_freedom / 2.0, 2.0 / stash::photo_prior_freedom);
    constexpr int spinners = 4000;
    for (const int photos : {1, 4, 10}) {
        int held = 0, asked = 0;
        for (int i = 0; i < spinners; ++i) {
            const double scale = 1.0 / std::sqrt(gamma(random));
            const double truth = usual_log_m + 0.3 * scale * normal(random);
            std::vector<stash::BattPhoto> record;
            for (int n = 0; n < photos; ++n) {
                const double sd = n % 2 == 0 ? 0.5 : 0.25;
                record.push_back(sample_photo(truth + scale * sd * normal(random), sd));
                record.back().id = n + 1;
            }
            const auto learnt = stash::hands_from(record);
            const auto range = learnt.hands.m.range_80_percent();
            held += range.low <= std::exp(truth) && std::exp(truth) <= range.high ? 1 : 0;
            asked += static_cast<int>(learnt.questions.size());
        }
        const double share = static_cast<double>(held) / spinners;
        MESSAGE(photos << " photos: held " << share << ", asked about "
                       << static_cast<double>(asked) / (spinners * photos));
        CHECK(share > 0.75);
        CHECK(share < 0.85);
        CHECK(asked < 0.03 * spinners * photos);
    }
}
