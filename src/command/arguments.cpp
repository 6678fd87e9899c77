#include "command/arguments.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>

namespace battwright::command {

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

measure::Expected<bool> CommandLine::parse(int argc, const char* const* argv, std::ostream& out) {
    try {
        app_->parse(argc, argv);
        return true;
    } catch (const CLI::CallForHelp& help) {
        app_->exit(help, out, out);
        return false;
    } catch (const CLI::ParseError& error) {
        std::string what = error.what();
        std::replace(what.begin(), what.end(), '\n', ' ');
        return tl::unexpected(measure::Complaint{what, "see battwright --help", "battwright"});
    }
}

}  // namespace battwright::command
