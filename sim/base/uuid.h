#pragma once
#include <string>
#include <string_view>

namespace cistern::base {

/// The name-based UUID (version 5) of a name within a namespace, which is a UUID itself, in small
/// letters: the same name gives the same UUID everywhere. Source: RFC 9562, section 5.5.
/// Precondition: the namespace is 32 hexadecimal digits, hyphens apart.
std::string namedUuid(std::string_view space, std::string_view name);

/// Namespace of names that are URIs. Source: RFC 9562, section 6.6.
inline constexpr std::string_view uriNamespace = "6ba7b811-9dad-11d1-80b4-00c04fd430c8";

} // namespace cistern::base
