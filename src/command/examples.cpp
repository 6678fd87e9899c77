#include "command/examples.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <system_error>

#include "recipe/file_name.hpp"

namespace battwright::command {
namespace {

measure::Complaint no_such_example(const std::string& name) {
    return {"no example is called '" + name + "'", "there are " + example_names(), "--example"};
}

measure::Complaint not_copied(int error, const std::filesystem::path& target) {
    if (error == EEXIST)
        return {"there is a file of this name already, and it stays as it is",
                "open it, or copy the example in another folder", target.string()};
    return {"the example cannot be copied: " + std::generic_category().message(error),
            "go to a folder you may write to that has room", target.string()};
}

// 0, or errno. Nothing is left of a file that could not be written whole.
int write_new_file(const std::filesystem::path& target, std::string_view text) {
    std::FILE* file = std::fopen(target.c_str(), "wbx");
    if (file == nullptr) return errno;
    errno = 0;
    const bool written = std::fwrite(text.data(), 1, text.size(), file) == text.size();
    int error = written ? 0 : errno;
    if (std::fclose(file) != 0 && error == 0) error = errno;
    if (error != 0 || !written) std::remove(target.c_str());
    return written ? error : (error != 0 ? error : EIO);
}

}  // namespace

std::string example_names() {
    std::string names;
    for (const Example& example : examples()) names.append(names.empty() ? "" : ", ").append(example.name);
    return names;
}

measure::Expected<std::filesystem::path> copy_example(const std::string& name,
                                                      const std::filesystem::path& folder) {
    const auto all = examples();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Example& e) { return e.name == name; });
    if (found == all.end()) return tl::unexpected(no_such_example(name));
    const std::filesystem::path target = folder / (name + recipe::file_ending);
    if (const int error = write_new_file(target, found->text); error != 0)
        return tl::unexpected(not_copied(error, target));
    return target;
}

}  // namespace battwright::command
