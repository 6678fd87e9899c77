#include "command/arguments.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <optional>

#include "measure/nearest.hpp"

namespace battwright::command {
namespace {

DescribedOption described(const CLI::Option& option) {
    DescribedOption out;
    out.by_place = !option.nonpositional();
    if (out.by_place) out.names.push_back(option.get_name(true));
    for (const std::string& name : option.get_snames()) out.names.push_back("-" + name);
    for (const std::string& name : option.get_lnames()) out.names.push_back("--" + name);
    out.takes_value = option.get_items_expected_max() > 0;
    if (out.takes_value) out.value = option.get_type_name();
    out.about = option.get_description();
    out.required = option.get_required();
    out.many = option.get_items_expected_max() > 1;
    return out;
}

DescribedCommand described(const CLI::App& app) {
    DescribedCommand out{app.get_name(), app.get_description(), {}, {}};
    for (const CLI::Option* option : app.get_options()) out.options.push_back(described(*option));
    for (const CLI::App* below : app.get_subcommands([](const CLI::App*) { return true; }))
        out.commands.push_back(described(*below));
    return out;
}

std::vector<std::string> commands_of(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* below : app.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(below->get_name());
    return names;
}

measure::Complaint no_command(const CLI::App& app, const std::string& word) {
    const bool root = app.get_parent() == nullptr;
    const std::string question = measure::did_you_mean(word, commands_of(app));
    return {(root ? "no command is called " : app.get_name() + " has no verb ") + measure::quoted(word),
            question.empty() ? "see battwright " + (root ? "" : app.get_name() + " ") + "--help" : question,
            "battwright"};
}

// The word that stands where a command should: of a command that has to have one below it, or before words
// that belong to none. Nothing when the fault is another.
std::optional<measure::Complaint> unknown_command(const CLI::App& root) {
    for (const CLI::App* chosen : root.get_subcommands()) {
        if (chosen->get_require_subcommand_min() == 0 || !chosen->get_subcommands().empty()) return {};
        for (const std::string& word : chosen->remaining())
            if (!word.starts_with('-')) return no_command(*chosen, word);
        return measure::Complaint{chosen->get_name() + " is not told what to do",
                                  "see battwright " + chosen->get_name() + " --help", "battwright"};
    }
    const CLI::Option* recipe = root.get_option_no_throw("RECIPE");
    if (recipe == nullptr || recipe->count() == 0 || root.remaining_size() == 0) return {};
    const std::string word = recipe->results().front();
    return could_be_file(word) ? std::nullopt : std::optional(no_command(root, word));
}

}  // namespace

bool could_be_file(const std::string& word) {
    std::error_code ignored;
    return word.find_first_of("./") != std::string::npos || std::filesystem::exists(word, ignored);
}

void Option::required() {
    option_->required();
}

Command Command::add_subcommand(const std::string& name, const std::string& about) {
    return Command(app_->add_subcommand(name, about));
}
void Command::require_subcommand(std::size_t least, std::size_t most) {
    app_->require_subcommand(least, most);
}

Option Command::add_option(const std::string& names, std::string& value, const std::string& about) {
    return Option(app_->add_option(names, value, about));
}
Option Command::add_option(const std::string& names, std::vector<std::string>& value,
                           const std::string& about) {
    return Option(app_->add_option(names, value, about));
}
Option Command::add_option(const std::string& names, int& value, const std::string& about) {
    return Option(app_->add_option(names, value, about));
}
Option Command::add_option(const std::string& names, double& value, const std::string& about) {
    return Option(app_->add_option(names, value, about));
}
void Command::add_flag(const std::string& names, bool& value, const std::string& about) {
    app_->add_flag(names, value, about);
}

bool Command::chosen() const {
    return app_->parsed();
}
bool Command::given(const std::string& option) const {
    return app_->count(option) > 0;
}

CommandLine::CommandLine(const std::string& about, const std::string& name)
    : app_(std::make_unique<CLI::App>(about, name)) {}
CommandLine::~CommandLine() = default;

Command CommandLine::root() {
    return Command(app_.get());
}

void CommandLine::closing_words(const std::string& text) {
    app_->footer(text);
}
DescribedCommand CommandLine::describe() const {
    return described(*app_);
}

measure::Complaint CommandLine::no_command(const std::string& word) const {
    return command::no_command(*app_, word);
}

measure::Expected<bool> CommandLine::parse(int argc, const char* const* argv, std::ostream& out) {
    try {
        app_->parse(argc, argv);
        return true;
    } catch (const CLI::CallForHelp& help) {
        app_->exit(help, out, out);
        return false;
    } catch (const CLI::ParseError& error) {
        if (const auto unknown = unknown_command(*app_)) return tl::unexpected(*unknown);
        std::string what = error.what();
        std::replace(what.begin(), what.end(), '\n', ' ');
        return tl::unexpected(measure::Complaint{what, "see battwright --help", "battwright"});
    }
}

}  // namespace battwright::command
