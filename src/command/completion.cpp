#include <sstream>

#include "command/examples.hpp"
#include "command/manual.hpp"

namespace battwright::command {
namespace {

std::string option_words(const DescribedCommand& command) {
    std::string words;
    for (const DescribedOption& option : command.options)
        if (!option.by_place)
            for (const std::string& name : option.names) words += (words.empty() ? "" : " ") + name;
    return words;
}

std::string command_words(const DescribedCommand& command) {
    std::string words;
    for (const DescribedCommand& below : command.commands) words += (words.empty() ? "" : " ") + below.name;
    return words;
}

void write_case(std::ostream& out, const std::string& path, const DescribedCommand& command) {
    out << "        '" << path << "') commands='" << command_words(command) << "' options='"
        << option_words(command) << "' ;;\n";
    for (const DescribedCommand& below : command.commands) write_case(out, path + "/" + below.name, below);
}

}  // namespace

std::string bash_completion(const DescribedCommand& program) {
    std::string names = example_names();
    std::erase(names, ',');
    std::ostringstream out;
    out << "# Written by " << program.name << " --completion; for bash.\n"
        << "_battwright_words() {\n"
        << "    case $1 in\n";
    write_case(out, "", program);
    out << "        *) return 1 ;;\n"
        << "    esac\n"
        << "}\n"
        << "_battwright() {\n"
        << "    local here=${COMP_WORDS[COMP_CWORD]} path= commands= options= word\n"
        << "    COMPREPLY=()\n"
        << "    if [ \"${COMP_WORDS[COMP_CWORD-1]}\" = --example ]; then\n"
        << "        COMPREPLY=($(compgen -W '" << names << "' -- \"$here\"))\n"
        << "        return\n"
        << "    fi\n"
        << "    for word in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n"
        << "        _battwright_words \"$path/$word\" && path=$path/$word\n"
        << "    done\n"
        << "    _battwright_words \"$path\"\n"
        << "    case $here in\n"
        << "        -*) COMPREPLY=($(compgen -W \"$options\" -- \"$here\")) ;;\n"
        << "        *) COMPREPLY=($(compgen -W \"$commands\" -- \"$here\"))\n"
        << "           mapfile -t -O ${#COMPREPLY[@]} COMPREPLY < <(compgen -d -- \"$here\"; "
        << "compgen -f -X '!*.toml' -- \"$here\") ;;\n"
        << "    esac\n"
        << "}\n"
        << "complete -o filenames -o bashdefault -o default -F _battwright " << program.name << "\n";
    return out.str();
}

}  // namespace battwright::command
