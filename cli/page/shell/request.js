// Talks to the program that serves this page. It alone knows the token and the fetch call.

export class Gone extends Error {}
export class Refused extends Error {
  constructor(words, findings) {
    super(words);
    this.findings = findings ?? [];
  }
}

/// Takes the token out of the visible address. It is kept for this tab, so that a reload works.
export function takeToken() {
  const given = location.hash.slice(1);
  if (given) {
    sessionStorage.setItem("token", given);
    history.replaceState(null, "", location.pathname);
  }
  return given || sessionStorage.getItem("token") || "";
}

/// `onState(words)` is called with a sentence when the program cannot be reached, and with null
/// when it answers again.
export function createServer(token, onState) {
  async function send(path, body) {
    let response;
    try {
      response = await fetch(path, {
        method: "POST",
        headers: {"Content-Type": "application/json", "Shankline-Token": token},
        body: JSON.stringify(body),
      });
    } catch {
      const words = "The program behind this page does not answer any more. What you typed is still here.";
      onState(words);
      throw new Gone(words);
    }
    if (response.status === 403) {
      const words = "This page was opened with an address that is no longer valid. What you typed is still here.";
      onState(words);
      throw new Gone(words);
    }
    onState(null);
    return response;
  }

  /// Throws Gone if nothing answers, Refused with the findings if the request was not accepted.
  async function demand(path, body) {
    const response = await send(path, body);
    if (response.ok) return response;
    let answer = {};
    try {
      answer = await response.json();
    } catch {
      // The answer has no body that can be read; the status has to do.
    }
    throw new Refused(answer.error ?? (answer.findings ? "The order was refused." : `The program answered ${response.status}.`), answer.findings);
  }

  return {
    async json(path, body) {
      const response = await demand(path, body);
      try {
        return await response.json();
      } catch {
        const words = "The program stopped in the middle of an answer. What you typed is still here.";
        onState(words);
        throw new Gone(words);
      }
    },
    async file(path, body) {
      return (await demand(path, body)).blob();
    },
  };
}

/// Returns a function that runs `job` `pause` ms after its last call. At most one job runs at a
/// time: a call during a job is done after it, and only the newest of them.
export function newestWins(job, pause) {
  let timer = 0;
  let running = false;
  let again = false;
  async function run() {
    if (running) {
      again = true;
      return;
    }
    running = true;
    do {
      again = false;
      await job();
    } while (again);
    running = false;
  }
  return () => {
    clearTimeout(timer);
    timer = setTimeout(run, pause);
  };
}
