// Writes the program's figures as its sheets do: what comes off is rounded down to half
// millimetres and what stays is rounded up, so that rounding never takes more off a board.

const roundingError = 1e-9;
const down = mm => (Math.floor(mm * 2 + roundingError) / 2).toFixed(1);
const up = mm => (Math.ceil(mm * 2 - roundingError) / 2).toFixed(1);
const tenth = mm => mm.toFixed(1);
const short = value => String(Number(value.toFixed(2)));

export const plusMinus = U => `±${tenth(U)}`;

export function toleranceWords([plus, minus]) {
  return plus === -minus ? `±${short(plus)}` : `+${short(plus)} −${short(-minus)}`;
}

const isSkew = line => line && (down(line.medial) !== down(line.centre) || down(line.lateral) !== down(line.centre));

/// The figures of one board in words for the page; null if the board is not cut.
/// `first` is null where so little comes off that the board is filed back to one line.
export function boardFigures(foot) {
  const trim = foot?.trim;
  const board = trim?.board;
  if (!board?.final) return null;
  const edges = line => line && {medial: down(line.medial), centre: down(line.centre), lateral: down(line.lateral)};
  const back = line => line && up(board.witness - line.centre);
  return {
    skew: isSkew(board.first) || isSkew(board.final),
    first: edges(board.first),
    final: edges(board.final),
    firstBack: back(board.first),
    finalBack: back(board.final),
    stopFrom: down(board.stop_from),
    stop: down(board.stop),
    witness: tenth(board.witness),
    // A loose board is not raised from a sole.
    liftLimit: board.lift_limit === null || (foot.pieces?.kept?.length && !foot.layers) ? null : down(board.lift_limit),
    bevel: board.bevel === null ? null : down(board.bevel),
    U: plusMinus(board.U),
    UStop: plusMinus(board.U_stop),
    URight: plusMinus(board.U_right),
    tolerance: toleranceWords(board.tolerance),
    // What may be left on the board is added to what stays behind the witness line.
    toleranceBack: toleranceWords([-board.tolerance[1], -board.tolerance[0]]),
    keepFirst: foot.pieces?.first?.kept_length ? up(foot.pieces.first.kept_length) : null,
    keep: foot.pieces?.kept?.length ? up(foot.pieces.kept.length) : null,
    share: foot.pieces?.kept_fraction ? `${Math.round(100 * foot.pieces.kept_fraction)} %` : null,
  };
}

export const rulerDown = down;
export const rulerUp = up;
