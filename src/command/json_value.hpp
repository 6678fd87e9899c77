// A value of JSON as it is put together and printed. The library that holds it is known to json_value.cpp
// alone: its header costs every file that sees it three seconds.
#pragma once

#include <concepts>
#include <cstdint>
#include <initializer_list>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace battwright::command {

class Json {
  public:
    Json(std::nullptr_t = nullptr);
    template <std::same_as<bool> T>
    Json(T value) : Json(Boolean{value}) {}
    template <std::signed_integral T>
    Json(T value) : Json(Signed{value}) {}
    template <std::unsigned_integral T>
    requires(!std::same_as<T, bool>) Json(T value) : Json(Unsigned{value}) {}
    // Rounded to 12 digits, so that every machine prints the same; null when it is no finite number.
    Json(double value);
    Json(const char* text) : Json(std::string_view(text)) {}
    Json(const std::string& text) : Json(std::string_view(text)) {}
    Json(std::string_view text);
    template <class T>
    Json(const std::vector<T>& values) : Json(array()) {
        for (const T& value : values) push_back(value);
    }
    // null where there is none.
    template <class T>
    Json(const std::optional<T>& value) : Json(value ? Json(*value) : Json()) {}
    // Pairs that each begin with a text make an object, in this order; anything else an array. Takes the
    // parts' contents: they are the temporaries of a braced list.
    Json(std::initializer_list<Json> parts);

    Json(const Json& other);
    Json(Json&& other) noexcept;
    Json& operator=(Json other) noexcept;
    ~Json();

    static Json array();
    static Json object();

    // Of an array.
    void push_back(Json value);
    bool empty() const;
    Json front() const;  // precondition: not empty
    // Of an object, or of null, which becomes one; a key that is there gets the new value in its place.
    void set(std::string_view key, Json value);

    // With two spaces, a line for each value, and a line end. Bytes that are not UTF-8 are replaced, so that
    // it never fails.
    friend std::string printed(const Json& json);

  private:
    struct Boolean {
        bool value;
    };
    struct Signed {
        std::int64_t value;
    };
    struct Unsigned {
        std::uint64_t value;
    };
    explicit Json(Boolean value);
    explicit Json(Signed value);
    explicit Json(Unsigned value);

    struct Tree;
    std::unique_ptr<Tree> tree_;
};

std::string printed(const Json& json);

}  // namespace battwright::command
