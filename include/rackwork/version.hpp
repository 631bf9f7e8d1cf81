// Rackwork: geometry of involute cylindrical gears. Licence: see LICENSE.
#ifndef RACKWORK_VERSION_HPP
#define RACKWORK_VERSION_HPP

/// The version of the library. This file is the only place where it is written; the build reads the three numbers here.
/// Macros, so that a caller can choose between two versions before anything else is included.
#define RACKWORK_VERSION_MAJOR 0
#define RACKWORK_VERSION_MINOR 1
#define RACKWORK_VERSION_PATCH 0

#define RACKWORK_VERSION_QUOTE_EXPANDED(text) #text
#define RACKWORK_VERSION_QUOTE(text) RACKWORK_VERSION_QUOTE_EXPANDED(text)

/// The same as a string literal, such as "1.2.3".
#define RACKWORK_VERSION_STRING                                                                                        \
    RACKWORK_VERSION_QUOTE(RACKWORK_VERSION_MAJOR)                                                                     \
    "." RACKWORK_VERSION_QUOTE(RACKWORK_VERSION_MINOR) "." RACKWORK_VERSION_QUOTE(RACKWORK_VERSION_PATCH)

#endif
