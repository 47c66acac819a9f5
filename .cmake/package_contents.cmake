# Run by CPack on what it has gathered, before it makes the package: Debian's own files.
set(share ${CPACK_TEMPORARY_INSTALL_DIRECTORY}/usr/share)
set(doc ${share}/doc/shankline)
file(COPY ${CPACK_SHANKLINE_PACKAGE_DIRECTORY}/copyright DESTINATION ${doc})
file(COPY ${CPACK_SHANKLINE_PACKAGE_DIRECTORY}/changelog DESTINATION ${doc})
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
