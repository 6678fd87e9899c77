// A recipe as TOML that a person can read.
#include <algorithm>
#include <sstream>

#include "colour/spaces.hpp"
#include "recipe/file.hpp"
#include "recipe/load.hpp"
#include "recipe/purpose.hpp"
#include "recipe/thickness.hpp"
#include "recipe/write.hpp"
#include "toml/toml.hpp"

namespace battwright::recipe {

namespace {

// A note of several lines keeps them. The formatter escapes each line; its own form of several lines loses a
// line break at the start.
std::string in_long_quotes(const std::string& text) {
    std::string result = "\"\"\"\n";
    std::istringstream lines(text + '\n');
    std::string line;
    bool first = true;
    while (std::getline(lines, line)) {
        const std::string escaped = toml::written(line);
        if (!first) result += '\n';
        result += escaped.substr(1, escaped.size() - 2);
        first = false;
    }
    return result + "\"\"\"";
}

void write_line(std::string& out, const char* key, const std::string& value) {
    out += std::string(key) + " = " + value + '\n';
}

void write_texts(std::string& out, const std::string& name, const std::string& notes) {
    if (!name.empty()) write_line(out, "name", toml::written(name));
    const bool lines = notes.find('\n') != std::string::npos;
    if (!notes.empty()) write_line(out, "notes", lines ? in_long_quotes(notes) : toml::written(notes));
}

std::string share_in_quotes(double percent) {
    return toml::written(measure::write_percent(percent));
}

// Within a line, as a thread has it: "fibre = ..." or "blend = [ ... ]".
std::string content_in_line(const std::vector<Content>& content) {
    if (content.size() == 1 && content.front().share_pct == 100.0)
        return "fibre = " + toml::written(content.front().fibre);
    std::string text;
    for (const Content& entry : content)
        text += (text.empty() ? "{ fibre = " : ", { fibre = ") + toml::written(entry.fibre) +
                ", share = " + share_in_quotes(entry.share_pct) + " }";
    return "blend = [" + text + "]";
}

void write_content(std::string& out, const Component& component) {
    const auto& content = component.content;
    if (content.size() == 1 && content.front().share_pct == 100.0) {
        write_line(out, "fibre", toml::written(content.front().fibre));
        return;
    }
    out += "blend = [\n";
    for (const Content& entry : content) {
        out += "    { fibre = " + toml::written(entry.fibre) +
               ", share = " + share_in_quotes(entry.share_pct) + " },\n";
    }
    out += "]\n";
}

void write_palette(std::string& out, const Component& component) {
    const auto& palette = component.palette;
    if (palette.empty()) return;
    std::vector<Tint> told;  // one colour is one line, whatever a hand on the window has made of two
    for (const Tint& tint : palette) {
        const auto same = std::find_if(told.begin(), told.end(), [&](const Tint& other) {
            return colour::hex(other.colour) == colour::hex(tint.colour);
        });
        if (same == told.end()) {
            told.push_back(tint);
        } else {
            same->share_pct += tint.share_pct;
        }
    }
    if (told.size() == 1 && told.front().share_pct == 100.0) {
        write_line(out, "colour", toml::written(colour::hex(told.front().colour)));
        return;
    }
    out += "colours = [\n";
    for (const Tint& tint : told) {
        const std::string colour = toml::written(colour::hex(tint.colour));
        out += "    { colour = " + colour + ", share = " + share_in_quotes(tint.share_pct) + " },\n";
    }
    out += "]\n";
}

void write_amount(std::string& out, const Amount& amount) {
    if (const auto* mass = std::get_if<measure::Mass>(&amount)) {
        write_line(out, "weight", toml::written(measure::write_mass(*mass)));
    } else if (const auto* percent = std::get_if<Percent>(&amount)) {
        write_line(out, "share", share_in_quotes(percent->value));
    } else {
        write_line(out, "parts", measure::write_number(std::get<Parts>(amount).value));
    }
}

void write_component(std::string& out, const Component& component) {
    out += "\n[[component]]\n";
    write_texts(out, component.name, component.notes);
    if (!component.lot.empty()) write_line(out, "lot", toml::written(component.lot));
    write_content(out, component);
    write_palette(out, component);
    if (component.colour_from)
        write_line(out, "colour_from",
                   toml::written(std::string(measure::row_of(colour_origins, *component.colour_from).word)));
    if (component.staple) write_line(out, "staple", toml::written(measure::write_length(*component.staple)));
    if (component.diameter_um)
        write_line(out, "diameter", toml::written(measure::write_diameter(*component.diameter_um)));
    if (component.reclaimed)
        write_line(out, "reclaimed", toml::written(std::string(fibre::word_for(*component.reclaimed))));
    write_amount(out, component.amount);
    if (component.locked) write_line(out, "locked", "true");
    if (component.price) write_line(out, "price", toml::written(write_price(*component.price)));
    if (component.add_on_pass == last_pass) {
        write_line(out, "add_on_pass", toml::written("last"));
    } else if (component.add_on_pass != 1) {
        write_line(out, "add_on_pass", std::to_string(component.add_on_pass));
    }
}

std::string own_carder(const Carder& own) {
    const auto millimetres = [](double value) { return toml::written(measure::write_number(value) + " mm"); };
    std::string text = "{ ";
    if (is_flat(own)) text += "tool = " + toml::written(std::string(words_of(own).word)) + ", ";
    if (!own.name.empty()) text += "name = " + toml::written(own.name) + ", ";
    text += std::string(is_flat(own) ? "length = " : "drum_circumference = ") +
            millimetres(own.drum_circumference_mm);
    text += ", width = " + millimetres(own.width_mm);
    text += ", clothing = " + measure::write_number(own.teeth_per_square_inch);
    text += ", load = " + toml::written(write_load({own.load_low_grams, own.load_high_grams}));
    if (own.licker_in_ratio != usual_licker_in_ratio && !is_flat(own))
        text += ", licker_in = " + toml::written(write_ratio(own.licker_in_ratio));
    return text + " }";
}

void write_carding(std::string& out, const Recipe& recipe) {
    const Carding& carding = recipe.carding;
    const Carding usual;
    if (carding == usual && !recipe.carding_written) return;
    out += "\n[carding]\n";
    write_line(out, "carder", carding.own ? own_carder(*carding.own) : toml::written(carding.carder));
    write_line(out, "passes", std::to_string(carding.passes));
    const Carder carder = carder_of(carding);
    if (carder.kind != ToolKind::hand_cards) write_line(out, "strips", std::to_string(carding.strips));
    if (carder.kind == ToolKind::board && carding.rolags != usual.rolags)
        write_line(out, "rolags", std::to_string(carding.rolags));
    if (carding.feed != usual.feed)
        write_line(out, "feed", toml::written(std::string(word_for(carding.feed, is_flat(carder)))));
    if (!carding.refeeds.empty()) {
        write_line(out, "refeed", refeeds_text(carding.refeeds));
    } else if (carding.refeed != usual.refeed) {
        write_line(out, "refeed", refeeds_text({carding.refeed}));
    }
    if (carding.repeats != usual.repeats) write_line(out, "repeats", std::to_string(carding.repeats));
    if (carding.overlap_pct != usual.overlap_pct)
        write_line(out, "overlap", toml::written(measure::write_percent(carding.overlap_pct)));
    if (carding.recombine) write_line(out, "recombine", "true");
    write_layings(out, carding);
}

std::string thread_table(const Thread& thread) {
    std::string text = "{ count = " + toml::written(measure::write_number(thread.tex) + " tex");
    text += ", length = " + toml::written(measure::write_number(thread.length_m) + " m");
    if (thread.colour) text += ", colour = " + toml::written(colour::hex(*thread.colour));
    if (!thread.content.empty()) text += ", " + content_in_line(thread.content);
    return text + " }";
}

void write_spinning(std::string& out, const Recipe& recipe) {
    const Spinning& spinning = recipe.spinning;
    Spinning usual;
    usual.twist = usual_twist(recipe.purpose);
    if (spinning == usual && !recipe.spinning_written) return;
    out += "\n[spinning]\n";
    write_line(out, "preparation", toml::written(std::string(word_for(spinning.preparation))));
    if (spinning.plying == Plying::plied) {
        write_line(out, "plies", std::to_string(spinning.plies));
    } else {
        write_line(out, "plying", toml::written(std::string(file_word(spinning.plying))));
    }
    write_line(out, "thickness", toml::written(write_thickness(spinning.thickness)));
    if (spinning.twist != usual.twist)
        write_line(out, "twist", toml::written(std::string(word_for(spinning.twist))));
    if (spinning.thread) write_line(out, "thread", thread_table(*spinning.thread));
    if (spinning.wheel_ratio)
        write_line(out, "wheel_ratio", toml::written(write_ratio(*spinning.wheel_ratio)));
}

void write_purpose(std::string& out, const Purpose& purpose) {
    if (purpose.thing.empty() && !purpose.next_to_skin) return;
    out += "\n[purpose]\n";
    if (!purpose.thing.empty()) write_line(out, "thing", toml::written(purpose.thing));
    if (!purpose.size.empty()) write_line(out, "size", toml::written(purpose.size));
    if (purpose.next_to_skin) write_line(out, "next_to_skin", *purpose.next_to_skin ? "true" : "false");
}

}  // namespace

std::string write_text(const Recipe& recipe) {
    std::string out = "format = 1\n";
    write_texts(out, recipe.name, recipe.notes);
    if (recipe.total) write_line(out, "total", toml::written(measure::write_mass(*recipe.total)));
    for (const Component& component : recipe.components) write_component(out, component);
    write_carding(out, recipe);
    write_spinning(out, recipe);
    write_purpose(out, recipe.purpose);
    write_series(out, recipe);
    return out;
}

}  // namespace battwright::recipe
