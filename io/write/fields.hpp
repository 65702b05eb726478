#pragma once

#include <cmath>
#include <concepts>
#include <functional>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "io/write/json_parts.hpp"
#include "io/write/number.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

// What all readers of vrid's own documents share. The functions on parts throw InputError without
// a file's name, or the library's own type; read_document says which file it was.

/// \throws InputError saying `what` unless it holds
void must_hold(bool holds, const std::string& what);

/// \throws InputError unless sd is a standard deviation
void must_be_deviation(double sd, const std::string& of);

/// What was not finite when it was written is null; it is nan here. \param key names it in errors
double number_of(const Json& json, const char* key);

/// {"value", "unit", "error"}; a bar that is null is not known, an absent one 0.
BenchQuantity quantity_in(const Json& json);

/// \throws InputError for the file instead of what `fill` throws
void fill_from(const Json& json, const std::string& file,
               const std::function<void(const Json&)>& fill);

/// Parses and fills; `mark` is the key that only this document has. \throws InputError for damaged
/// text, another document, another format
void read_document(const std::string& text, const std::string& file, const char* mark,
                   const std::function<void(const Json&)>& fill);

// A part of a document is a struct whose members are named as its keys. VRID_FIELDS lists them
// once, for writing and for reading, in the order in which they are written. Their types say more:
//
//     double         rounded as the struct says; what is not finite is null, and null is nan
//     Finite         a double that is not null
//     BenchQuantity  {"value", "unit", "error"};  Measured  these three beside the other keys,
//                    std::optional of it: or not one of them
//     Numbers        BenchQuantity by the names of all keys that the struct does not list
//     std::optional  left out where it is empty;  OrNull    null where it is empty
//     Later          may be missing, as in documents of earlier versions
//     Some           a text or a list that is left out where it is empty
//     ByName         structs by their `name`, as an object; Named: other values
//
// What must hold of a part that was read says a function check_part(const Part&) beside it.

struct Measured : BenchQuantity {};

struct Finite {
    double value = 0;
    Finite(double given = 0) : value(given) {}
    operator double() const { return value; }
};

template <class Value> struct OrNull : std::optional<Value> {
    using std::optional<Value>::optional;
    OrNull(std::optional<Value> given) : std::optional<Value>(std::move(given)) {}
};

template <class Value> struct Later {
    Value value{};
    Later() = default;
    template <std::convertible_to<Value> Given>
    Later(Given&& given) : value(std::forward<Given>(given)) {}
    operator Value() const { return value; }
};

template <class Value> struct Some : Value {
    using Plain = Value;
    using Value::Value;
    Some(Value given = {}) : Value(std::move(given)) {}
};

template <class Part> struct ByName : std::vector<Part> { using std::vector<Part>::vector; };

/// Values by names that are written in their own order.
template <class Value> struct Named : nlohmann::ordered_map<std::string, Value> {
    using nlohmann::ordered_map<std::string, Value>::ordered_map;
    Named(const Named&) = default;
    Named(Named&&) = default;
    Named& operator=(Named other) { // its names are const
        this->swap(other);
        return *this;
    }
};

struct Numbers : Named<BenchQuantity> {};

template <class Given, class Wanted>
concept Of = std::same_as<std::remove_const_t<Given>, Wanted>;

#define VRID_FIELD(member) each(#member, part.member);
#define VRID_FIELDS(Part, digits, ...)                                                             \
    template <class Each, Of<Part> Given> void fields(Each& each, Given& part) {                   \
        each.round_to(digits);                                                                     \
        NLOHMANN_JSON_EXPAND(NLOHMANN_JSON_PASTE(VRID_FIELD, __VA_ARGS__))                         \
    }

template <class Value, template <class...> class Kind> constexpr bool is_a = false;
template <template <class...> class Kind, class... Parts>
constexpr bool is_a<Kind<Parts...>, Kind> = true;

template <class Value>
concept IsPlain = std::integral<Value> || std::same_as<Value, std::string> ||
    std::same_as<Value, Json> || requires {
    std::tuple_size<Value>::value;
}; // pairs of numbers
template <class Value>
concept IsList = !IsPlain<Value> && requires(Value list) {
    list.begin();
};
template <class Value>
concept IsObject = IsList<Value> && requires(Value list) {
    { list.begin()->first } -> std::convertible_to<std::string>;
};

class FieldWriter {
  public:
    explicit FieldWriter(Json& json) : json_(json) {}
    void round_to(int digits) { digits_ = digits; }

    template <class Value> void operator()(const char* key, const Value& value) {
        if constexpr (std::same_as<Value, Measured>) {
            json_.update(json_of(value));
        } else if constexpr (std::same_as<Value, std::optional<Measured>>) {
            json_.update(value ? json_of(*value) : Json::object());
        } else if constexpr (std::same_as<Value, Numbers>) {
            json_.update(written(value));
        } else if constexpr (is_a<Value, std::optional> || is_a<Value, OrNull>) {
            if (value) {
                json_[key] = written(*value);
            } else if (is_a<Value, OrNull>) {
                json_[key] = Json();
            }
        } else if constexpr (is_a<Value, Later>) {
            json_[key] = written(value.value);
        } else if constexpr (is_a<Value, Some>) {
            if (!value.empty()) {
                json_[key] = written(static_cast<const typename Value::Plain&>(value));
            }
        } else {
            json_[key] = written(value);
        }
    }

    template <class Value> [[nodiscard]] Json written(const Value& value) const {
        if constexpr (std::floating_point<Value>) {
            return std::isfinite(value) ? Json(round_significant(value, digits_)) : Json();
        } else if constexpr (std::same_as<Value, Finite>) {
            return written(value.value);
        } else if constexpr (std::same_as<Value, BenchQuantity>) {
            return json_of(value);
        } else if constexpr (IsPlain<Value>) {
            return value;
        } else {
            Json all = IsList<Value> ? Json::array() : Json::object();
            if constexpr (is_a<Value, ByName>) {
                all = Json::object();
                for (const auto& one : value) {
                    all[one.name] = written(one);
                }
            } else if constexpr (IsObject<Value>) {
                all = Json::object();
                for (const auto& [name, one] : value) {
                    all[name] = written(one);
                }
            } else if constexpr (IsList<Value>) {
                for (const auto& one : value) {
                    all.push_back(written(one));
                }
            } else {
                FieldWriter each(all);
                fields(each, value);
            }
            return all;
        }
    }

  private:
    Json& json_;
    int digits_ = 17; // all of them
};

class FieldReader {
  public:
    explicit FieldReader(const Json& json) : json_(json) {}
    void round_to(int /*digits*/) {}

    template <class Value> void operator()(const char* key, Value& value) {
        listed_.push_back(key);
        if constexpr (std::same_as<Value, Numbers>) {
            numbers_ = &value;
        } else if constexpr (std::same_as<Value, Measured>) {
            value = Measured{quantity_in(json_)};
        } else if constexpr (std::same_as<Value, std::optional<Measured>>) {
            value = json_.contains("value") ? std::optional(Measured{quantity_in(json_)})
                                            : std::nullopt;
        } else if constexpr (is_a<Value, std::optional> || is_a<Value, OrNull>) {
            if (const auto found = json_.find(key);
                found != json_.end() &&
                (!found->is_null() || std::same_as<Value, std::optional<Finite>>)) {
                take(*found, key, value.emplace());
            }
        } else if constexpr (is_a<Value, Later>) {
            if (const auto found = json_.find(key); found != json_.end()) {
                take(*found, key, value.value);
            }
        } else if constexpr (is_a<Value, Some>) {
            if (const auto found = json_.find(key); found != json_.end()) {
                take(*found, key, static_cast<typename Value::Plain&>(value));
            }
        } else {
            take(json_.at(key), key, value);
        }
    }

    template <class Value> void take(const Json& json, const char* key, Value& value) const {
        if constexpr (std::floating_point<Value>) {
            value = number_of(json, key);
        } else if constexpr (std::same_as<Value, Finite>) {
            must_hold(json.is_number(), std::string("'") + key + "' is no number");
            value = number_of(json, key);
        } else if constexpr (std::same_as<Value, BenchQuantity>) {
            value = quantity_in(json);
        } else if constexpr (IsPlain<Value>) {
            json.get_to(value);
        } else if constexpr (is_a<Value, ByName>) {
            must_hold(json.is_object(), std::string("'") + key + "' is no table");
            for (const auto& [name, one] : json.items()) {
                value.emplace_back().name = name; // first, for errors
                take(one, key, value.back());
            }
        } else if constexpr (IsObject<Value>) {
            must_hold(json.is_object(), std::string("'") + key + "' is no table");
            for (const auto& [name, one] : json.items()) {
                typename Value::value_type::second_type second{};
                take(one, key, second);
                value.emplace_back(name, std::move(second));
            }
        } else if constexpr (IsList<Value>) {
            must_hold(json.is_array(), std::string("'") + key + "' is no list");
            for (const Json& one : json) {
                take(one, key, value.emplace_back());
            }
        } else {
            must_hold(json.is_object(), std::string("'") + key + "' is no table");
            FieldReader each(json);
            fields(each, value);
            each.take_numbers();
            if constexpr (requires { check_part(value); }) {
                check_part(value);
            }
        }
    }

  private:
    void take_numbers() {
        if (numbers_ == nullptr) {
            return;
        }
        for (const auto& [name, one] : json_.items()) {
            if (!contains(listed_, name)) {
                numbers_->emplace_back(name, quantity_in(one));
            }
        }
    }

    const Json& json_;
    std::vector<const char*> listed_;
    Numbers* numbers_ = nullptr;
};

/// A struct as its part of a document.
template <class Part> Json written(const Part& part) {
    Json all;
    return FieldWriter(all).written(part);
}

/// The other way. \throws InputError without a file's name, or the JSON library's own type
template <class Part> Part read_part(const Json& json) {
    Part part;
    FieldReader(json).take(json, "", part);
    return part;
}

/// The other way, of a whole document. \param mark the key that only it has \param file names it
/// in errors \throws InputError as read_document
template <class Whole>
Whole read_whole(const std::string& text, const std::string& file, const char* mark) {
    Whole all;
    read_document(text, file, mark, [&](const Json& json) { all = read_part<Whole>(json); });
    return all;
}

} // namespace vrid
