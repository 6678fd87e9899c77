// Projects that wait for skeins.
#include "command/layout.hpp"
#include "command/stash_common.hpp"
#include "command/stash_json.hpp"
#include "command/stash_parts.hpp"

namespace battwright::command {
namespace {

struct ProjectOptions : Common {
    std::string skein, project, length, allocation;
};

Answer allocate(const Context& context, const ProjectOptions& o) {
    const auto id = id_of(o.skein, "SKEIN");
    const auto metres = given(o.length, "LENGTH", measure::parse_yarn_length_metres);
    auto stash = open_stash(o, context, Opening::writing);
    const auto made = value_of(stash.allocate({0, id, o.project, metres.value_or(0.0)}));
    const auto left = value_of(stash.metres_left(id));
    if (o.json) {
        auto json = allocation_json(made);
        json.set("left_m", left);
        return Answer{printed(json)};
    }
    return Answer{o.yarn(made.metres) + " of skein " + o.skein + " are for " + made.project +
                  " (allocation " + std::to_string(made.id) + "); " + o.yarn(left) + " of it are free\n"};
}

Answer release(const Context& context, const ProjectOptions& o) {
    const auto id = id_of(o.allocation, "ALLOCATION");
    auto stash = open_stash(o, context, Opening::writing);
    value_of(stash.release(id));
    if (o.json) return Answer{printed({{"released", id}})};
    return Answer{"allocation " + o.allocation + " is free again\n"};
}

Answer projects(const Context& context, const ProjectOptions& o) {
    const auto stash = open_stash(o, context, Opening::reading);
    const auto allocations = value_of(stash.allocations());
    if (o.json) return Answer{printed({{"allocations", list_json(allocations, allocation_json)}})};
    if (allocations.empty()) return Answer{"No yarn is promised to a project.\n"};
    std::string text = right("number", 8) + right("skein", 7) + right("length", 9) + "  project\n";
    for (const stash::Allocation& allocation : allocations)
        text += right(std::to_string(allocation.id), 8) + right(std::to_string(allocation.skein), 7) +
                right(o.yarn(allocation.metres), 9) + "  " + allocation.project + "\n";
    return Answer{text};
}

}  // namespace

void add_project_verbs(StashCommands& commands) {
    add_verb<ProjectOptions>(
        commands, "allocate", "promise so much of a skein to a project",
        [](Command& app, ProjectOptions& o) {
            app.add_option("SKEIN", o.skein, "its number, from stash skeins").required();
            app.add_option("LENGTH", o.length, "as in \"120 m\"").required();
            app.add_option("PROJECT", o.project, "what it is for").required();
        },
        allocate);
    add_verb<ProjectOptions>(
        commands, "release", "a project does not need the yarn after all",
        [](Command& app, ProjectOptions& o) {
            app.add_option("ALLOCATION", o.allocation, "its number, from stash projects").required();
        },
        release);
    add_verb<ProjectOptions>(
        commands, "projects", "what is promised to which project", [](Command&, ProjectOptions&) {},
        projects);
}

}  // namespace battwright::command
