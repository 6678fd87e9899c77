// A value of one of several types, for those who need to know the names of the types only.
#pragma once

#include <memory>
#include <type_traits>
#include <utility>

namespace battwright::app {

template <class Result, class Type>
class Visits {
  public:
    virtual Result operator()(const Type& value) const = 0;

  protected:
    ~Visits() = default;
};

// What is done with each of the types: who derives from it is asked by the compiler for an overload of each.
template <class Result, class... Types>
class VisitorOf : public Visits<Result, Types>... {
  public:
    using Visits<Result, Types>::operator()...;

  protected:
    ~VisitorOf() = default;
};

// As a std::variant, but the types may be incomplete where it is stored, copied and handed on. Copies share
// the value, which never changes.
template <class Result, class... Types>
class AnyOf {
  public:
    using Visitor = VisitorOf<Result, Types...>;

    template <class Type>
    requires(std::is_same_v<Type, Types> || ...) AnyOf(Type value)
        : held_(std::make_shared<const Holder<Type>>(std::move(value))) {}

    Result visit(const Visitor& visitor) const { return held_->visit(visitor); }
    // Null when it is of another type.
    template <class Type>
    const Type* get_if() const {
        const auto* held = dynamic_cast<const Holder<Type>*>(held_.get());
        return held == nullptr ? nullptr : &held->value;
    }

  private:
    struct Held {
        virtual ~Held() = default;
        virtual Result visit(const Visitor& visitor) const = 0;
    };
    template <class Type>
    struct Holder final : Held {
        explicit Holder(Type v) : value(std::move(v)) {}
        Result visit(const Visitor& visitor) const override {
            return static_cast<const Visits<Result, Type>&>(visitor)(value);
        }
        Type value;
    };
    std::shared_ptr<const Held> held_;
};

}  // namespace battwright::app
