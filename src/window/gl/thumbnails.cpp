#include "window/gl/thumbnails.hpp"

#include <algorithm>

namespace battwright::window {

void ThumbnailTextures::follow(const std::shared_ptr<const Thumbnails>& thumbnails) {
    if (followed_ == thumbnails) return;
    followed_ = thumbnails;
    std::erase_if(uploaded_, [&](const auto& entry) {
        return std::ranges::none_of(*thumbnails,
                                    [&](const auto& now) { return now.second == entry.second.thumbnail; });
    });
    for (const auto& [path, thumbnail] : *thumbnails) {
        if (!thumbnail || thumbnail->picture.rgb.empty() || uploaded_.contains(thumbnail.get())) continue;
        uploaded_.emplace(thumbnail.get(), Uploaded{thumbnail, Texture(thumbnail->picture)});
    }
}

ImTextureID ThumbnailTextures::of(const Thumbnail& thumbnail) const {
    const auto found = uploaded_.find(&thumbnail);
    return found == uploaded_.end() ? nullptr : found->second.texture.id();
}

}  // namespace battwright::window
