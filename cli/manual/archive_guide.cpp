#include "cli/manual/archive_guide.hpp"

#include <array>

namespace shankline {
namespace {

constexpr std::array archive_rows{
    ArchiveGuide{ArchiveAction::save, "save", "solve orders and keep them, without writing sheets",
                 "  shankline archive save order.yaml\n"
                 "  shankline cut order.yaml --save -o order.pdf   # the same, with the sheets\n"},
    ArchiveGuide{ArchiveAction::list, "list", "list the pairs that were cut, the newest first",
                 "  shankline archive list --dancer M-07 --from 2026-01-01\n"
                 "  shankline archive list --before 41 --rows 50\n"},
    ArchiveGuide{ArchiveAction::history, "history", "show a dancer's cuts and how each of them did",
                 "  shankline archive history M-07\n"},
    ArchiveGuide{ArchiveAction::show, "show", "show everything about one entry",
                 "  shankline archive show 12\n"},
    ArchiveGuide{ArchiveAction::compare, "compare", "show where the numbers of two entries differ",
                 "  shankline archive compare 12 31\n"},
    ArchiveGuide{ArchiveAction::reprint, "reprint",
                 "write the sheets again exactly as they were drawn",
                 "  shankline archive reprint 12 -o again.pdf\n"},
    ArchiveGuide{ArchiveAction::note, "note", "note what happened to a cut pair",
                 "  shankline archive note 12 --foot left --seen good --worn --gap 1.5\n"
                 "  shankline archive note 12 --foot both --ended \"board broke at the bevel\"\n"},
    ArchiveGuide{ArchiveAction::worn, "worn", "note hours on pointe: one day, or many from a file",
                 "  shankline archive worn 12 --hours 2\n"
                 "  shankline archive worn 12 --hours 1.5 --on 2026-04-02 --where stage --wet\n"
                 "  shankline archive worn 12 --hours 1 --done \"water on the vamp\"\n"
                 "  shankline archive worn --from april.csv\n"},
    ArchiveGuide{ArchiveAction::end, "end", "note that a pair is no longer used, and why",
                 "  shankline archive end 13 --reason board\n"},
    ArchiveGuide{ArchiveAction::mark, "mark",
                 "note a step of the order book: sent, received, in use",
                 "  shankline archive mark 12 13 14 --sent 2026-03-16\n"
                 "  shankline archive mark 12 --received 2026-04-20 --for stage\n"},
    ArchiveGuide{ArchiveAction::pairs, "pairs",
                 "list pairs in use: hours worn, dry or not, hours expected to be left",
                 "  shankline archive pairs\n"
                 "  shankline archive pairs M-07 --drying 48\n"},
    ArchiveGuide{ArchiveAction::find, "find", "find an entry from the words on a label",
                 "  shankline archive find \"second pair\"\n"
                 "  shankline archive find M-07   # or the digest of its order\n"},
    ArchiveGuide{ArchiveAction::labels, "labels",
                 "print labels for the shoes, with the entry's number",
                 "  shankline archive labels 12 13 -o labels.pdf\n"},
    ArchiveGuide{ArchiveAction::overview, "overview",
                 "show the whole company, sorted by what needs doing",
                 "  shankline archive overview\n"
                 "  shankline archive overview -o overview.pdf\n"},
    ArchiveGuide{ArchiveAction::tries, "tries", "type in the tries of a filled-in card",
                 "  shankline archive tries 12 --foot left 52.5:too-low 55.5:too-low 58.5:good\n"
                 "  shankline archive tries 12 --foot left 58.5:good,worn --by T-4 --day "
                 "2026-04-02\n"},
    ArchiveGuide{ArchiveAction::withdraw, "withdraw", "mark a note as wrong",
                 "  shankline archive withdraw 42\n"},
    ArchiveGuide{ArchiveAction::card, "card",
                 "print a dancer's card that continues after the tries",
                 "  shankline archive card 12 -o card.pdf\n"},
    ArchiveGuide{ArchiveAction::care, "care", "print the pair's page on breaking in and repair",
                 "  shankline archive care 12 -o care.pdf\n"},
    ArchiveGuide{ArchiveAction::learn, "learn",
                 "show what all tries teach together, and how good past lines were",
                 "  shankline archive learn\n"
                 "  shankline archive learn -o learn.pdf   # found against predicted, on paper\n"},
    ArchiveGuide{ArchiveAction::export_bundle, "export",
                 "write the archive, or one dancer's entries, as plain YAML",
                 "  shankline archive export -o archive.yaml\n"},
    ArchiveGuide{ArchiveAction::import_bundle, "import",
                 "add the entries of a bundle that the archive does not have",
                 "  shankline archive import archive.yaml\n"},
    ArchiveGuide{ArchiveAction::forget, "forget", "erase a dancer for good",
                 "  shankline archive forget M-07\n"},
    ArchiveGuide{ArchiveAction::audit, "audit", "check that every entry is there and unchanged",
                 "  shankline archive audit\n"},
    ArchiveGuide{ArchiveAction::backup, "backup", "write a copy of the archive as a file",
                 "  shankline archive backup archive-2026.sqlite\n"},
    ArchiveGuide{ArchiveAction::protect, "protect", "let only its owner read the archive",
                 "  shankline archive protect\n"},
    ArchiveGuide{ArchiveAction::prepare, "prepare", "make a server's empty database an archive",
                 "  shankline archive prepare postgresql://keeper@host/shankline\n"},
    ArchiveGuide{ArchiveAction::send, "send", "deliver what waits in the outbox for a server",
                 "  shankline archive send --archive postgresql://bench@host/shankline\n"},
    ArchiveGuide{ArchiveAction::move, "move", "copy the entries of one archive to another",
                 "  shankline archive move archive.sqlite postgresql://keeper@host/shankline\n"},
};

} // namespace

std::span<const ArchiveGuide> archive_guides() {
  return archive_rows;
}

} // namespace shankline
