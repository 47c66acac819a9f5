# Run by CPack on what it has gathered, before it makes the package: Debian's own files.
if(CPACK_SHANKLINE_STATIC_RUNTIME)
  message(FATAL_ERROR "This build has libraries linked into the program, which would get no security "
    "updates. Make the package of another one:\n"
    "  cmake -G Ninja -C .cmake/dynamic.cmake -B build/dynamic\n"
    "  cmake --build build/dynamic && (cd build/dynamic && cpack)")
endif()
set(share ${CPACK_TEMPORARY_INSTALL_DIRECTORY}/usr/share)
set(doc ${share}/doc/shankline)
file(COPY ${CPACK_SHANKLINE_PACKAGE_DIRECTORY}/copyright DESTINATION ${doc})
file(COPY ${CPACK_SHANKLINE_PACKAGE_DIRECTORY}/changelog DESTINATION ${doc})
# README speaks of the source tree; here the program is installed already.
file(READ ${doc}/README.md readme)
string(REGEX REPLACE "## Two commands\n.*\n## The first ten minutes\n"
  "## The first ten minutes\n\nThe program is installed. This page and the samples are in\n`/usr/share/doc/shankline`; the parts on building are left out here.\n"
  readme "${readme}")
string(REGEX REPLACE "PATH=[^\n]*\n" "" readme "${readme}")
string(REPLACE "cp samples/plain.yaml order.yaml                # one"
  "cp /usr/share/doc/shankline/samples/plain.yaml order.yaml   # one" readme "${readme}")
string(REPLACE "([Installed](#install), it is found without the first line.) " "" readme "${readme}")
string(REGEX REPLACE "## Install\n.*\n## Where the numbers" "## Where the numbers" readme "${readme}")
string(REPLACE "[DEVELOPERS.md](DEVELOPERS.md)" "DEVELOPERS.md in the source" readme "${readme}")
string(REPLACE "[LICENSE](LICENSE)" "`/usr/share/common-licenses/GPL-3`" readme "${readme}")
string(REPLACE "shankline match samples/" "shankline match /usr/share/doc/shankline/samples/" readme "${readme}")
file(WRITE ${doc}/README.md "${readme}")
file(REMOVE ${doc}/LICENSE) # the same text as in common-licenses

file(GLOB pages ${share}/man/man*/*.[0-9])
# -n: no name and no time inside, so that the same input gives the same bytes.
execute_process(COMMAND gzip -9 -n -f ${doc}/changelog ${pages} COMMAND_ERROR_IS_FATAL ANY)
file(GLOB_RECURSE everything LIST_DIRECTORIES true ${CPACK_TEMPORARY_INSTALL_DIRECTORY}/usr/*)
foreach(entry ${everything})
  if(IS_DIRECTORY ${entry} OR entry MATCHES "/usr/bin/")
    file(CHMOD ${entry} PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE
                                    WORLD_READ WORLD_EXECUTE)
  else()
    file(CHMOD ${entry} PERMISSIONS OWNER_READ OWNER_WRITE GROUP_READ WORLD_READ)
  endif()
endforeach()
