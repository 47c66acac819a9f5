# Included by CMakeLists.txt: what goes into a prefix beside the program and its manual, and the
# Debian package.
#
#   cmake --install build/release --prefix PREFIX
#   (cd build/release && cpack)

install(FILES README.md LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR})
# The faces are in the program, so that their licence goes wherever the program goes.
install(FILES export/faces/OFL.txt DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(DIRECTORY samples/ DESTINATION ${CMAKE_INSTALL_DOCDIR}/samples
        FILES_MATCHING PATTERN "*.yaml" PATTERN "*.png")

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME shankline)
set(CPACK_PACKAGE_VENDOR "Shankline")
set(CPACK_PACKAGE_CONTACT "Shankline maintainers <bench@shankline.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "cutting templates for altered pointe shoes")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# Loaded only where a text needs more letters than the base faces have, and for the page in a browser.
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS
    "libfontconfig1, fonts-dejavu-core, libmicrohttpd12, xdg-utils")
# Loaded only for an archive on a server, and for calendars.
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "libpq5, libical3")
set(CPACK_PACKAGE_DESCRIPTION
"From foot measurements and the place where the arch breaks, Shankline works
out where the trim line of a three-quarter shank belongs, for the left and the
right foot apart, and prints it at true size: a template, ruler numbers, a
first cut to try on, and a tolerance on every figure.")

# The licence of the faces as that format wants it: a space in front, a dot for an empty line.
file(READ export/faces/OFL.txt faces_licence)
string(REGEX REPLACE "^.*(This Font Software is licensed)" "\\1" faces_licence "${faces_licence}")
string(STRIP "${faces_licence}" faces_licence)
string(REPLACE "\n" "\n " faces_licence " ${faces_licence}")
string(REPLACE "\n \n" "\n .\n" faces_licence "${faces_licence}")

# Files for the Debian package only: its copyright and changelog, and compressed man pages. They are
# made when CPack packs, so that an ordinary install stays as it is.
file(CONFIGURE OUTPUT package/copyright CONTENT
"Format: https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/
Upstream-Name: shankline

Files: *
Copyright: 2026 the contributors of Shankline
License: GPL-3+

Files: export/faces/*
Copyright: 2010 Google Corporation with Reserved Font Arimo, Tinos and Cousine
           2012 Red Hat, Inc. with Reserved Font Name Liberation
           2026 the contributors of Shankline (the changes)
Comment: Shankline Sans, a Modified Version of Liberation Sans 2. It is in the
 program and in every PDF that the program writes.
License: OFL-1.1
@faces_licence@

License: GPL-3+
 This program is free software: you can redistribute it and/or modify it under
 the terms of the GNU General Public License as published by the Free Software
 Foundation, either version 3 of the License, or (at your option) any later
 version.
 .
 On Debian systems, the complete text of the GNU General Public License,
 version 3, can be found in /usr/share/common-licenses/GPL-3.
" @ONLY)
file(CONFIGURE OUTPUT package/changelog CONTENT
"shankline (@PROJECT_VERSION@) unstable; urgency=low

  * Version @PROJECT_VERSION@, of @SHANKLINE_RELEASED@.

 -- Shankline maintainers <bench@shankline.invalid>  Fri, 27 Nov 2026 12:00:00 +0000
" @ONLY)
set(CPACK_PRE_BUILD_SCRIPTS ${PROJECT_SOURCE_DIR}/.cmake/package_contents.cmake)
set(CPACK_SHANKLINE_PACKAGE_DIRECTORY ${PROJECT_BINARY_DIR}/package)
include(CPack)
