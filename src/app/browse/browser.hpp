// Choosing a file, whatever it is for: the folder looked at, what lies in it, small pictures, the name. Needs
// no display, and waits for no disk but when a choice is made.
#pragma once

#include <array>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/browse/file_kinds.hpp"
#include "app/browse/listing.hpp"
#include "app/browse/thumbnails.hpp"

namespace battwright::app {

// What is asked for, and by whom: the label of the field, which reads the answer in the next frame.
struct FileRequest {
    std::string who;
    FileKind kind = FileKind::recipe;
    FilePurpose purpose = FilePurpose::open;
    std::filesystem::path at;  // what stands in the field: where it begins; may be empty
    std::string suggested;     // a name to save under
};
// The recipe on the bench is asked for by nobody's field.
inline constexpr const char* recipe_asks = "recipe";

class FileBrowser {
  public:
    // Before anything else. `ready` is called on threads of the browser's own once there is something to see.
    void use(const fibre::Catalogue& catalogue, std::function<void()> ready);
    // `otherwise`: the folder to begin in when nothing better is known.
    void open(FileRequest ask, const std::filesystem::path& otherwise);
    // It is shut, whatever was chosen.
    void leave();
    // Once a frame.
    void follow();
    bool has_news() const;
    // A listing or a picture is still to come.
    bool busy() const;

    void enter(const std::filesystem::path& folder);
    void name_it(std::string name);
    void order_by(FileOrder order);
    // The entries in sight, of which small pictures are wanted, by number.
    void look_at(std::size_t first, std::size_t end);
    // Chooses the named file. Nothing when a folder was entered, a name is missing, no such file is there, or
    // a file would be replaced and has to be asked for a second time.
    std::optional<std::filesystem::path> finish();
    // What was chosen otherwise, such as let fall on the window.
    void give(std::string who, std::filesystem::path path);

    bool is_open() const { return open_; }
    const FileRequest& ask() const { return ask_; }
    const std::filesystem::path& folder() const { return folder_; }
    const std::string& name() const { return name_; }
    const std::string& complaint() const { return complaint_; }
    FileOrder order() const { return order_; }
    // Of the folder; null until it is read.
    const Listing* listing() const { return listing_.get(); }
    const std::shared_ptr<const Thumbnails>& thumbnails() const { return thumbnails_; }  // never null
    // Null until it is made.
    const Thumbnail* thumbnail_of(const FolderEntry& entry) const;
    std::size_t seen_first() const { return seen_first_; }
    std::size_t seen_end() const { return seen_end_; }
    // The file chosen for that field, in the frame after the choice.
    std::optional<std::filesystem::path> chosen_for(std::string_view who) const;

  private:
    void list();

    std::unique_ptr<FolderReader> reader_;
    std::unique_ptr<ThumbnailMaker> maker_;
    bool open_ = false;
    FileRequest ask_;
    std::filesystem::path folder_;
    std::array<std::filesystem::path, all_file_kinds.size()> last_folders_;  // by kind
    std::string name_, complaint_;
    bool replace_asked_ = false;
    FileOrder order_ = FileOrder::by_name;
    FolderWanted listed_;
    std::shared_ptr<const Listing> listing_;
    std::shared_ptr<const Thumbnails> thumbnails_ = std::make_shared<const Thumbnails>();
    std::size_t seen_first_ = 0, seen_end_ = 0;
    std::vector<ThumbnailWanted> wanted_;
    struct Chosen {
        std::string who;
        std::filesystem::path path;
        bool fresh = true;  // no frame has seen it
    };
    std::optional<Chosen> chosen_;
};

// Files: what is asked for, a folder, a name, in which order they lie, which are in sight, done.
struct BrowseFiles {
    FileRequest ask;
};
struct LeaveFiles {};
struct OrderFiles {
    FileOrder order;
};
struct LookAtFiles {
    std::size_t first = 0, end = 0;
};
struct EnterFolder {
    std::filesystem::path folder;
};
struct NameFile {
    std::string name;
};
struct FinishFile {};
// Let fall on the window, or pasted: for that field.
struct GiveFile {
    std::string who;
    std::filesystem::path path;
};

}  // namespace battwright::app
