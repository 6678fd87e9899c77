// Inside this room: what reading, saving and looking at files share.
#pragma once

#include <filesystem>
#include <string>

#include "measure/beside.hpp"
#include "measure/complaint.hpp"

namespace battwright::measure {

// A file descriptor that closes itself; -1 is none.
class Descriptor {
  public:
    explicit Descriptor(int number = -1) : number_(number) {}
    ~Descriptor();
    Descriptor(Descriptor&& other) noexcept;
    Descriptor& operator=(Descriptor&& other) noexcept;
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    int number() const { return number_; }
    explicit operator bool() const { return number_ >= 0; }

  private:
    int number_;
};

std::string system_reason(int error);    // errno in words
std::string mend_for_saving(int error);  // what to do about it when a file could not be saved
tl::unexpected<Complaint> complain_of(const std::filesystem::path& path, std::string what, std::string mend);
tl::unexpected<Complaint> complain_of_reading(const std::filesystem::path& path, int error);

// An ordinary file opened for reading. Never waits: a pipe, a socket, a device and a folder are complaints.
Expected<Descriptor> open_ordinary(const std::filesystem::path& path);
// All that is left to read, at most `most` bytes.
Expected<std::string> read_rest(const Descriptor& descriptor, const std::filesystem::path& path,
                                std::size_t most);
// All the bytes in a file beside `path`, with the rights of the file that is there, ready to take its place.
Expected<Beside> written_beside(const std::filesystem::path& path, std::string_view bytes);
// A rename would replace anything, a device too. A complaint when something lies at `path`, followed through
// its links, that is no ordinary file.
Expected<void> check_replaceable(const std::filesystem::path& path);
// A link stays a link: the file it points to is the one meant.
std::filesystem::path follow_links(const std::filesystem::path& path);
std::filesystem::path folder_of(const std::filesystem::path& path);  // "." for a bare name

}  // namespace battwright::measure
