// What comes to a lot and what leaves it.
#include "command/stash_common.hpp"
#include "command/stash_json.hpp"
#include "command/stash_parts.hpp"

namespace battwright::command {
namespace {

struct MoveOptions : Common {
    std::string mark, weight, date, note, cost, movement;
};

void add_move_options(Command& app, MoveOptions& o) {
    app.add_option("MARK", o.mark, "the mark on the bag's tag").required();
    app.add_option("WEIGHT", o.weight, "as in \"25 g\"").required();
    app.add_option("--date", o.date, "today unless given, as in 2024-05-17");
    app.add_option("--note", o.note, "why, to whom");
}

std::string left_text(const stash::Shelved& shelved, const MoveOptions& o) {
    return shelved.lot.mark + " " + shelved.lot.name + ": " + o.mass_as(o.weight, shelved.grams) +
           " on the shelf\n";
}

// Does the work with the weight, then says what is left.
template <class Work>
Answer moved(const Context& context, const MoveOptions& o, const Work& work) {
    const auto grams = weight_of(o.weight, "WEIGHT");
    auto stash = open_stash(o, context, Opening::writing);
    const stash::Movement movement = work(stash, grams);
    const auto shelved = value_of(stash.lot(o.mark));
    if (!o.json) return Answer{left_text(shelved, o)};
    return Answer{printed({{"lot", lot_json(shelved)},
                           {"movement", movement.id == 0 ? Json(nullptr) : movement_json(movement)}})};
}

stash::Movement moved_with_cost(stash::Stash& stash, stash::Move move, const std::string& cost) {
    stash::Movement made;
    value_of(stash.all_or_nothing([&] {
        if (!cost.empty()) move.cost = money_of(cost, stash);
        made = value_of(stash.move(move));
        return Expected<void>();
    }));
    return made;
}

auto move_for(stash::Reason reason) {
    return [reason](const Context& context, const MoveOptions& o) {
        return moved(context, o, [&](stash::Stash& stash, double grams) {
            return moved_with_cost(stash, {o.mark, reason, grams, o.date, o.note, {}}, o.cost);
        });
    };
}

Answer weigh(const Context& context, const MoveOptions& o) {
    return moved(context, o, [&](stash::Stash& stash, double grams) {
        return value_of(stash.weigh_again(o.mark, grams, o.note, o.date));
    });
}

Answer scour(const Context& context, const MoveOptions& o) {
    return moved(context, o, [&](stash::Stash& stash, double grams) {
        return value_of(stash.scour(o.mark, grams, o.note, o.date));
    });
}

// The movement keeps its sign, so the weight is given without.
stash::Movement corrected(stash::Stash& stash, const MoveOptions& o, double grams) {
    const auto id = id_of(o.movement, "MOVEMENT");
    const auto movements = value_of(stash.movements(o.mark));
    for (const stash::Movement& movement : movements)
        if (movement.id == id)
            return value_of(stash.correct(id, movement.grams < 0.0 ? -grams : grams, o.note, o.date));
    fail("the lot " + measure::quoted(o.mark) + " has no movement " + o.movement,
         "see battwright stash show for its movements", "MOVEMENT");
}

Answer correct(const Context& context, const MoveOptions& o) {
    return moved(context, o, [&](stash::Stash& stash, double grams) { return corrected(stash, o, grams); });
}

}  // namespace

void add_weight_verbs(StashCommands& commands) {
    add_verb<MoveOptions>(commands, "weigh", "the scale says otherwise: this is what the bag weighs now",
                          add_move_options, weigh);
    add_verb<MoveOptions>(commands, "waste", "so much went to moth, felt or the floor", add_move_options,
                          move_for(stash::Reason::wasted));
    add_verb<MoveOptions>(commands, "give", "so much was given away or sold", add_move_options,
                          move_for(stash::Reason::given));
    add_verb<MoveOptions>(
        commands, "buy", "so much more of the same came",
        [](Command& app, MoveOptions& o) {
            add_move_options(app, o);
            app.add_option("--cost", o.cost, "of this purchase, as in \"12.50 EUR\"");
        },
        move_for(stash::Reason::bought));
    add_verb<MoveOptions>(commands, "scour", "a raw lot came out of the bath at so much, dry",
                          add_move_options, scour);
    add_verb<MoveOptions>(
        commands, "correct", "a movement should have been so much",
        [](Command& app, MoveOptions& o) {
            app.add_option("MARK", o.mark, "the mark on the bag's tag").required();
            app.add_option("MOVEMENT", o.movement, "its number, from stash show").required();
            app.add_option("WEIGHT", o.weight, "what it was in truth, as in \"25 g\"").required();
            app.add_option("--date", o.date, "today unless given");
            app.add_option("--note", o.note, "why");
        },
        correct);
}

}  // namespace battwright::command
