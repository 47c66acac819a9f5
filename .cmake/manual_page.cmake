# cmake -DPROGRAM=shankline -DPAGE=man -DFILE=shankline.1 -P .cmake/manual_page.cmake
cmake_path(GET FILE PARENT_PATH folder)
file(MAKE_DIRECTORY ${folder})
execute_process(COMMAND ${PROGRAM} manual ${PAGE} OUTPUT_FILE ${FILE} COMMAND_ERROR_IS_FATAL ANY)
