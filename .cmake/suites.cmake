# Runs after a test program is linked, and writes one entry of ctest for each of its suites but those
# of the long run.
#
#   cmake -DPROGRAM=... -DENTRIES=FILE -DLABEL=... -P suites.cmake
execute_process(COMMAND ${PROGRAM} --gtest_list_tests OUTPUT_VARIABLE listed COMMAND_ERROR_IS_FATAL ANY)
# The longest suites start first, so that none is left running alone at the end.
set(first ServerArchive ReadBack Layout Comparison OutputSchemas EveryStore/1 SamplesOnPaper
    Samples/SampleOnPaper EveryPage Manual)
string(REPLACE ";" "\\;" listed "${listed}")
string(REPLACE "\n" ";" lines "${listed}")
set(entries "")
foreach(line ${lines})
  # "Suite." or "Instantiation/Suite." alone on its line, or before a comment on its type.
  if(NOT line MATCHES "^([A-Za-z_][^ ]*\\.)( .*)?$")
    continue()
  endif()
  set(suite ${CMAKE_MATCH_1})
  if(suite MATCHES "^Long" OR suite MATCHES "/Long")
    continue()
  endif()
  string(REGEX REPLACE "\\.$" "" entry ${suite})
  string(APPEND entries
    "add_test([==[${entry}]==] [==[${PROGRAM}]==] [==[--gtest_filter=${suite}*]==])\n"
    "set_tests_properties([==[${entry}]==] PROPERTIES LABELS ${LABEL} TIMEOUT 300)\n")
  list(FIND first ${entry} place)
  if(NOT place EQUAL -1)
    math(EXPR cost "100 - ${place}")
    string(APPEND entries "set_tests_properties([==[${entry}]==] PROPERTIES COST ${cost})\n")
  endif()
endforeach()
if(NOT listed MATCHES "\\.")
  message(FATAL_ERROR "${PROGRAM} lists no suite")
endif()
file(WRITE ${ENTRIES} "${entries}")
