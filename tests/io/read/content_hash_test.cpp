#include "io/read/content_hash.hpp"

#include <catch2/catch.hpp>

using vrid::content_hash;

TEST_CASE("the content hash is 128-bit FNV-1a of length and bytes") {
    // the offset basis of the definition
    CHECK(content_hash({}) == "6c62272e07bb014262b821756295c58d");
    // computed with Python's whole numbers, after its FNV-1a of "a" met the published
    // d228cb696f1a8caf78912b704e4a8964
    CHECK(content_hash({"a"}) == "426d56754e03ad9adb79f299c730f21f");
    CHECK(content_hash({"a", ""}) == "563f464311a6aa9cbeb984350ab53a3f");
    CHECK(content_hash({"nose", "tail"}) == "6b03c399ca08e2efb23e0973342a425c");
    CHECK(content_hash({"noset", "ail"}) != content_hash({"nose", "tail"}));
}
