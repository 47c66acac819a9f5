#!/bin/sh
# Holds the folders to be the dependency graph: geometry <- export <- cli, and the rooms in each.
#
#   tests/layers.sh [ROOT]          one line for every fault, exit code 1 when there is any
#   tests/layers.sh --graph [ROOT]  prints for every room the rooms that it includes
set -u

graph=
if [ "${1:-}" = --graph ]; then
  graph=yes
  shift
fi

# Who may include what: the start of a header's name, in how many files at most, and which .cpp files
# these may be (shell patterns).
libraries='
CGAL/      2  geometry/*_cgal.cpp
hpdf       3  export/formats/pdf_writer.cpp export/lettering/typeface.cpp export/lettering/face_trial.cpp
fontconfig 1  cli/surroundings/face_finder.cpp
yaml-cpp/  1  cli/yaml/order_document.cpp
CLI/       2  cli/command_line/command_line.cpp cli/command_line/archive_options.cpp
sqlite3.h  2  cli/archive/sqlite_connection.cpp cli/archive/sqlite_open_file.cpp
libpq-fe.h 1  cli/archive/server_connection.cpp
nettle/    2  export/formats/digest.cpp cli/archive/archive_base64.cpp
zlib.h     1  cli/archive/archive_drawing.cpp
utf8proc.h 1  export/lettering/code_point.cpp
nlohmann/  9  export/*json*.cpp cli/*json*.cpp
libical/   1  cli/job/calendar_file.cpp
microhttpd.h 1 cli/page/page_server.cpp
'

# The rooms of each layer. Each may include those before it in its line, and itself.
rooms='
geometry numerics plane order uncertainty foot board sides finishing solution strip breaking comparison fitting learning wear
export lettering drawing formats page wording json templates work_orders overlays bench sets screen
cli text surroundings yaml order_file bench_files archive job report interview manual verbs page command_line
'

# Entries that are allowed at the top of the repository, besides dotfiles.
top='CMakeLists.txt README.md DEVELOPERS.md LICENSE geometry export cli tests samples'

cd "${1:-$(dirname "$0")/..}" || exit 1
faults=0

fault() {
  printf '%s\n' "$1"
  faults=$((faults + 1))
}

# may FILE PATTERNS: whether the file is one of those.
may() {
  set -f
  for pattern in $2; do
    # shellcheck disable=SC2254 # a pattern is meant
    case $1 in
      $pattern)
        set +f
        return 0 ;;
    esac
  done
  set +f
  return 1
}

# Names of files here never hold spaces; a name that does is refused below.
sources=$(find geometry export cli -type f 2>/dev/null | LC_ALL=C sort)

for layer in geometry export cli; do
  count=$(printf '%s\n' "$sources" | grep -c "^$layer/.*\.[ch]pp$")
  [ "$count" -ge 2 ] || fault "$layer/: only $count source files; is this the right directory?"
done

# Every source stands in a room of its layer.
while read -r layer names; do
  [ -n "$layer" ] || continue
  for file in $(printf '%s\n' "$sources" | grep "^$layer/.*\.[ch]pp$"); do
    room=${file#"$layer"/}
    case " $names " in
      *" ${room%%/*} "*) ;;
      *) fault "$file: stands in no room of $layer/ (see the table of rooms)" ;;
    esac
  done
done <<END
$rooms
END

while IFS= read -r file; do
  case $file in
    *[!A-Za-z0-9_./-]*) fault "$file: a name with other characters than letters, digits and _" ;;
    *.h | *.hh | *.hxx | *.h++ | *.inc | *.ipp | *.inl | *.tpp | *.cc | *.cxx | *.c)
      fault "$file: sources end in .cpp and headers in .hpp" ;;
  esac
done <<END
$sources
END

# Every include of our sources as "file:line kind name", kind " or <.
includes=$(printf '%s\n' "$sources" | grep '\.[ch]pp$' | xargs awk '
  /^[ \t]*#[ \t]*include/ {
    line = $0
    sub(/^[ \t]*#[ \t]*include[ \t]*/, "", line)
    kind = substr(line, 1, 1)
    name = substr(line, 2)
    sub(/[">].*/, "", name)
    print FILENAME ":" FNR, kind, name
  }')

# The rooms come in the order of the table. There is no circle as long as no line names a later room.
if [ -n "$graph" ]; then
  printf '%s\n' "$includes" | awk -v table="$rooms" '
    $2 == "\"" {
      split($1, from, "/")
      split($3, to, "/")
      if (from[1] "/" from[2] != to[1] "/" to[2]) uses[from[1] "/" from[2], to[1] "/" to[2]] = 1
    }
    END {
      lines = split(table, line, "\n")
      for (i = 1; i <= lines; ++i) {
        names = split(line[i], word, " ")
        for (j = 2; j <= names; ++j) room[++rooms] = word[1] "/" word[j]
      }
      for (i = 1; i <= rooms; ++i) {
        text = room[i] ":"
        for (j = 1; j <= rooms; ++j) if ((room[i], room[j]) in uses) text = text " " room[j]
        print text
      }
    }'
  exit 0
fi

# Inside a layer a room includes only rooms before it.
backwards=$(printf '%s\n' "$includes" | awk -v table="$rooms" '
  BEGIN {
    lines = split(table, line, "\n")
    for (i = 1; i <= lines; ++i) {
      names = split(line[i], word, " ")
      for (j = 2; j <= names; ++j) rank[word[1] "/" word[j]] = j
    }
  }
  $2 == "\"" {
    split($1, from, "/")
    split($3, to, "/")
    if (from[1] != to[1]) next
    here = rank[from[1] "/" from[2]]
    there = rank[to[1] "/" to[2]]
    if (here && there && there > here)
      print $1 ": the room " from[2] " may not include \"" $3 "\": " to[2] " comes after it"
  }')
while IFS= read -r line; do
  [ -z "$line" ] || fault "$line"
done <<END
$backwards
END

standard=" algorithm any array atomic barrier bit bitset charconv chrono codecvt compare complex
 concepts condition_variable coroutine deque exception execution filesystem format forward_list
 fstream functional future initializer_list iomanip ios iosfwd iostream istream iterator latch
 limits list locale map memory memory_resource mutex new numbers numeric optional ostream queue
 random ranges ratio regex scoped_allocator semaphore set shared_mutex source_location span sstream
 stack stdexcept stop_token streambuf string string_view syncstream system_error thread tuple
 type_traits typeindex typeinfo unordered_map unordered_set utility valarray variant vector version
 cassert cctype cerrno cfenv cfloat cinttypes climits clocale cmath csetjmp csignal cstdarg cstddef
 cstdint cstdio cstdlib cstring ctime cuchar cwchar cwctype "
standard=$(printf '%s' "$standard" | tr '\n' ' ')

# Nearly all includes are of the standard library, or of our own layer or one below. They are left out
# here, since the shell takes its time over each.
doubtful=$(printf '%s\n' "$includes" | awk -v standard="$standard" '
  BEGIN { rank["geometry"] = 1; rank["export"] = 2; rank["cli"] = 3 }
  {
    split($1, from, "/")
    split($3, to, "/")
    if ($2 == "\"" && to[1] in rank && rank[to[1]] <= rank[from[1]]) next
    if ($2 == "<" && index(standard, " " $3 " ")) next
    print
  }')

while read -r place kind name; do
  [ -n "$place" ] || continue
  file=${place%%:*}
  layer=${file%%/*}

  # Our own headers: from the root, in quotes, from this layer or below.
  if [ "$kind" = '"' ]; then
    case $layer:$name in
      geometry:geometry/* | export:geometry/* | export:export/*) ;;
      cli:geometry/* | cli:export/* | cli:cli/*) ;;
      *) fault "$place: $layer/ may not include \"$name\"" ;;
    esac
    continue
  fi
  case $name in
    geometry/* | export/* | cli/* | tests/*)
      fault "$place: our own <$name> is included in quotes"
      continue ;;
  esac

  # Other people's headers: none in a header, and in few sources.
  case $file in
    *.hpp)
      case $standard in
        *" $name "*) ;;
        *) fault "$place: a header includes <$name>, which is not of the standard library" ;;
      esac
      continue ;;
  esac
  while read -r start most files; do
    [ -n "$start" ] || continue
    case $name in "$start"*) ;; *) continue ;; esac
    may "$file" "$files" || fault "$place: <$name> is only for $files"
  done <<END
$libraries
END
done <<END
$doubtful
END

while read -r start most files; do
  [ -n "$start" ] || continue
  users=
  for file in $(printf '%s\n' "$includes" |
    awk -v start="$start" 'index($3, start) == 1 { sub(/:.*/, "", $1); print $1 }' | sort -u); do
    ! may "$file" "$files" || users="$users $file"
  done
  count=$(printf '%s' "$users" | wc -w)
  [ "$count" -le "$most" ] ||
    fault "<$start...> is included by $count files, at most $most are allowed:$users"
done <<END
$libraries
END

# CMake must not link a layer to one above it, even though the linker would accept that.
for pair in geometry:shankline_export geometry:shankline_cli export:shankline_cli; do
  layer=${pair%%:*}
  library=${pair##*:}
  if grep -qw "$library" "$layer/CMakeLists.txt" 2>/dev/null; then
    fault "$layer/CMakeLists.txt: $layer/ may not link $library"
  fi
done

# Without a repository (an unpacked archive) everything there is looked at but what builds leave.
if tracked=$(git -c safe.directory='*' ls-files 2>/dev/null) && [ -n "$tracked" ]; then
  entries=$(printf '%s\n' "$tracked" | cut -d/ -f1 | sort -u)
else
  entries=$(find . -mindepth 1 -maxdepth 1 ! -name build ! -name out | cut -c 3-)
fi
while IFS= read -r entry; do
  case " $top " in *" $entry "*) continue ;; esac
  case $entry in
    .*) ;;
    *) fault "$entry: does not belong at the top of the repository" ;;
  esac
done <<END
$entries
END

[ "$faults" -eq 0 ]
