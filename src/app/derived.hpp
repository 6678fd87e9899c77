// A value kept together with the inputs it was made from.
#pragma once

#include <optional>
#include <utility>

namespace battwright::app {

// Made anew when it is asked for with other inputs, so that nobody has to remember to call it out of date.
template <class Key, class Value>
class Derived {
  public:
    // `make(key, value)` is called only when the key differs from the last one; `value` is what was made of
    // that one, to be replaced or mended.
    template <class Make>
    const Value& of(Key key, Make&& make) {
        if (!key_ || !(*key_ == key)) {
            std::forward<Make>(make)(std::as_const(key), value_);
            key_ = std::move(key);
        }
        return value_;
    }
    const Value& value() const { return value_; }
    // What it was made of; nothing before the first time and after forget().
    const std::optional<Key>& key() const { return key_; }
    // It is made anew when it is next asked for, whatever the key.
    void forget() { key_.reset(); }

  private:
    std::optional<Key> key_;
    Value value_{};
};

}  // namespace battwright::app
