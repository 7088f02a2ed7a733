#include "base/uuid.h"

#include <catch2/catch.hpp>

using namespace cistern;

TEST_CASE("A name-based UUID is that of the standard", "[base]") {
    // RFC 9562, appendix A.4: www.example.com in the namespace of domain names.
    CHECK(base::namedUuid("6ba7b810-9dad-11d1-80b4-00c04fd430c8", "www.example.com") ==
          "2ed6657d-e927-568b-95e1-2665a8aea6a2");
}

TEST_CASE("A name-based UUID follows every letter of a name of any length", "[base]") {
    // Around the ends of the blocks of 64 bytes, where the padding changes its shape: 16 bytes of
    // namespace and 39, 40, 47, 48, 112 of name. From uuid.uuid5 of Python's standard library.
    const auto of = [](std::size_t letters) {
        return base::namedUuid(base::uriNamespace, std::string(letters, 'a'));
    };
    CHECK(of(0) == "1b4db7eb-4057-5ddf-91e0-36dec72071f5");
    CHECK(of(39) == "615eac0e-03db-567b-8580-916c1aca1cc2");
    CHECK(of(40) == "c5c985c8-6875-5a42-b6e3-2872703afed4");
    CHECK(of(47) == "60100e11-180f-59cb-911f-bdb3aa734c9d");
    CHECK(of(48) == "aa33c522-9edc-58a5-b5af-e2a12995886e");
    CHECK(of(112) == "237275f4-1121-5532-bfe3-f5091e4fce65");
}
