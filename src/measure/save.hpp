// Saving a file so that there is the old one or the new one, never half; reading one without ever waiting.
#pragma once

#include <filesystem>
#include <string_view>

#include "measure/complaint.hpp"

namespace battwright::measure {

// Writes `bytes` to a temporary file beside `path`, flushes it to disk (fsync), then renames over `path`.
// On any failure the temporary file is removed, `path` is as it was, and the complaint names `path`. What a
// killed program left behind in that folder goes too.
Expected<void> save_bytes(const std::filesystem::path& path, std::string_view bytes);

// The whole of a file, at most `most` bytes; complaints for missing, unreadable, too long, and for what is
// no ordinary file (a folder, a pipe, a device), which is never waited for.
Expected<std::string> load_bytes(const std::filesystem::path& path, std::size_t most);

}  // namespace battwright::measure
