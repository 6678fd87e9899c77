#include "command/manual.hpp"

#include <sstream>

#include "command/version.hpp"
#include "text/words.hpp"

namespace battwright::command {
namespace {

// Text as roff takes it: no line begins with a request, a hyphen is a minus, a backslash is one.
std::string roff(const std::string& text) {
    std::string out;
    bool line_begins = true;
    for (const char c : text) {
        if (line_begins && (c == '.' || c == '\'')) out += "\\&";
        if (c == '-')
            out += "\\-";
        else if (c == '\\')
            out += "\\e";
        else
            out += c;
        line_begins = c == '\n';
    }
    return out;
}

std::string bold(const std::string& text) {
    return "\\fB" + roff(text) + "\\fR";
}

std::string italic(const std::string& text) {
    return "\\fI" + roff(text) + "\\fR";
}

// "-o, --output TEXT"
std::string heading(const DescribedOption& option) {
    std::string out;
    for (const std::string& name : option.names)
        out += (out.empty() ? "" : ", ") + (option.by_place ? italic(name) : bold(name));
    if (!option.by_place && option.takes_value) out += " " + italic(option.value);
    if (option.many) out += " ...";
    return out;
}

void write_options(std::ostream& out, const DescribedCommand& command) {
    for (const DescribedOption& option : command.options)
        out << ".TP\n" << heading(option) << "\n" << roff(option.about) << "\n";
}

// "forecast RECIPE", with what must be given.
std::string usage(const std::string& path, const DescribedCommand& command) {
    std::string out = bold(path);
    for (const DescribedOption& option : command.options) {
        if (!option.required) continue;
        out += " " + (option.by_place ? italic(option.names.back())
                                      : bold(option.names.front()) + " " + italic(option.value));
        if (option.many) out += "...";
    }
    return out;
}

void write_command(std::ostream& out, const std::string& path, const DescribedCommand& command) {
    out << ".SS " << usage(path, command) << "\n" << roff(command.about) << "\n";
    write_options(out, command);
    for (const DescribedCommand& below : command.commands) write_command(out, path + " " + below.name, below);
}

// "Designs batts." as the one line that apropos shows: "designs batts".
std::string one_line(const std::string& about) {
    std::string line = about.substr(0, about.find('\n'));
    if (line.ends_with('.')) line.pop_back();
    if (!line.empty()) line[0] = text::lower(line[0]);
    return line;
}

}  // namespace

std::string closing_words() {
    return "A recipe is a small text file in TOML; yours are best called NAME.batt.toml.\n"
           "The shelf and the record lie in ~/.local/share/battwright/stash.db, fibres of your own in\n"
           "~/.local/share/battwright/fibres.toml, the window's settings in ~/.config/battwright.\n"
           "\n"
           "Ends with 0 when all is well; with 1 when check found what would spoil the batt, label has no\n"
           "label to give, scraps and match have no answer or stash check found a fault; with 2 when what\n"
           "was given cannot be used: then one line says what, where and how to mend it.";
}

std::string manual_page(const DescribedCommand& program) {
    std::ostringstream out;
    out << ".\\\" Written by battwright --manual from the text of battwright --help.\n"
        << ".TH BATTWRIGHT 1 \"\" \"Battwright " << version() << "\" \"User Commands\"\n"
        << ".SH NAME\n"
        << program.name << " \\- " << roff(one_line(program.about)) << "\n"
        << ".SH SYNOPSIS\n"
        << bold(program.name) << " [" << italic("RECIPE") << "]\n.br\n"
        << bold(program.name) << " " << italic("COMMAND") << " ...\n"
        << ".SH DESCRIPTION\n"
        << roff(program.about) << "\n.PP\n"
        << roff(closing_words()) << "\n.SH OPTIONS\n";
    write_options(out, program);
    out << ".SH COMMANDS\n";
    for (const DescribedCommand& command : program.commands)
        write_command(out, program.name + " " + command.name, command);
    return out.str();
}

}  // namespace battwright::command
