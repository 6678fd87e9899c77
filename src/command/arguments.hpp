// Commands, their options and what was given of them. The library that reads them is known to arguments.cpp
// alone: its header costs every file that sees it three seconds.
#pragma once

#include <iosfwd>
#include <memory>
#include <string>
#include <vector>

#include "measure/complaint.hpp"

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace battwright::command {

// Whether a word may name a file: one that is there, or one with a point or a slash in it.
bool could_be_file(const std::string& word);

// An option or argument that was just declared.
class Option {
  public:
    explicit Option(CLI::Option* option) : option_(option) {}
    void required();

  private:
    CLI::Option* option_;
};

// One command: a handle, copied freely, good for as long as its CommandLine. Everything but the default one
// stands for a command that was declared.
class Command {
  public:
    Command() = default;
    explicit Command(CLI::App* app) : app_(app) {}

    Command add_subcommand(const std::string& name, const std::string& about);
    // So many words that name a command below this one have to follow.
    void require_subcommand(std::size_t least, std::size_t most);

    // `names` as in "-o,--output", or a bare word for an argument by its place. What is given goes to
    // `value`, which outlives the parsing; a list takes any number.
    Option add_option(const std::string& names, std::string& value, const std::string& about);
    Option add_option(const std::string& names, std::vector<std::string>& value, const std::string& about);
    Option add_option(const std::string& names, int& value, const std::string& about);
    Option add_option(const std::string& names, double& value, const std::string& about);
    void add_flag(const std::string& names, bool& value, const std::string& about);

    // After parsing: the person named this command; she gave this option.
    bool chosen() const;
    bool given(const std::string& option) const;

  private:
    CLI::App* app_ = nullptr;
};

// What was declared, for a manual: the same words as --help has.
struct DescribedOption {
    std::vector<std::string> names;  // "-o", "--output"; or one bare word for an argument by its place
    std::string value;               // what follows it, "TEXT"; empty for a flag
    std::string about;
    bool by_place = false;
    bool required = false;
    bool many = false;
    bool takes_value = false;
};
struct DescribedCommand {
    std::string name, about;
    std::vector<DescribedOption> options;
    std::vector<DescribedCommand> commands;
};

class CommandLine {
  public:
    CommandLine(const std::string& about, const std::string& name);
    ~CommandLine();
    CommandLine(const CommandLine&) = delete;
    CommandLine& operator=(const CommandLine&) = delete;

    // The program itself, without a command.
    Command root();
    // What --help says last.
    void closing_words(const std::string& text);
    // All that was declared until now.
    DescribedCommand describe() const;
    // The complaint about a word that names no command of the program, with the nearest.
    measure::Complaint no_command(const std::string& word) const;
    // True when the arguments were taken, false when they asked for help, which then stands on `out`.
    measure::Expected<bool> parse(int argc, const char* const* argv, std::ostream& out);

  private:
    std::unique_ptr<CLI::App> app_;
};

}  // namespace battwright::command
