#!/usr/bin/env python3
"""Drives the page in a real browser, as a person would.

    tests/page/browser.py PROGRAM [--smoke] [--axe axe.min.js] [--pictures FOLDER]

Starts PROGRAM page with a home of its own, and Chromium without a window. One line a check, "ok NAME"
or "FAILED NAME: why"; exit code 1 if one failed. --smoke makes one new order and its PDF only. --axe
adds the accessibility rules of that file (axe-core). Wants the Debian packages chromium,
chromium-driver and python3-selenium.
"""

import argparse
import json
import os
import pathlib
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

from selenium import webdriver
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys

ROOT = pathlib.Path(__file__).resolve().parents[2]
SAMPLES = ROOT / "samples"
WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
WIDTHS = [360, 768, 1440]


class Failed(Exception):
    pass


def expect(truth, words):
    if not truth:
        raise Failed(words)


def wait_for(test, words, seconds=20):
    end = time.time() + seconds
    while time.time() < end:
        try:
            found = test()
            if found:
                return found
        except Exception:  # not there yet
            pass
        time.sleep(0.05)
    raise Failed(f"waited in vain for {words}")


class Page:
    """The page in a browser, and the program behind it."""

    def __init__(self, program, width=1440, height=900, dark=False):
        self.program = str(pathlib.Path(program).resolve())
        self.home = pathlib.Path(tempfile.mkdtemp(prefix="shankline-browser-"))
        self.downloads = self.home / "downloads"
        self.downloads.mkdir()
        self.environment = {k: v for k, v in os.environ.items() if not k.startswith("XDG_")}
        self.environment["HOME"] = str(self.home)
        self.server = subprocess.Popen([self.program, "page"], stdout=subprocess.PIPE, text=True,
                                       env=self.environment)
        self.address = self.server.stdout.readline().strip()
        options = webdriver.ChromeOptions()
        for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
                         f"--window-size={width},{height}", f"--user-data-dir={self.home / 'profile'}"):
            options.add_argument(argument)
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        options.add_experimental_option("prefs", {"download.default_directory": str(self.downloads)})
        self.browser = webdriver.Chrome(options=options, service=Service(shutil.which("chromedriver")))
        self.browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                                     {"width": width, "height": height, "deviceScaleFactor": 1,
                                      "mobile": False})
        if dark:
            self.browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {
                "features": [{"name": "prefers-color-scheme", "value": "dark"}]})
        self.browser.set_script_timeout(120)
        self.browser.get(self.address)
        wait_for(lambda: self.all("[data-key='feet.left.length'] input"), "the boxes of the feet")

    def close(self):
        self.browser.quit()
        self.server.send_signal(signal.SIGTERM)
        code = self.server.wait(20)
        shutil.rmtree(self.home, ignore_errors=True)
        expect(code == 0, f"the server ended with {code}")

    def all(self, selector):
        return self.browser.find_elements(By.CSS_SELECTOR, selector)

    def one(self, selector):
        return wait_for(lambda: self.all(selector), selector)[0]

    def box(self, key):
        return self.one(f"[data-key='{key}'] input[type=text]")

    def type(self, key, words):
        box = self.box(key)
        box.clear()
        box.send_keys(words)

    def click(self, element):
        """In the middle of the window: the head of the page lies over its top."""
        self.browser.execute_script("arguments[0].scrollIntoView({block: 'center'})", element)
        element.click()

    def press(self, root, beginning):
        def button():
            for one in self.all(f"{root} button"):
                if one.is_displayed() and one.text.startswith(beginning):
                    return one
            return None
        self.click(wait_for(button, f"the button {beginning}"))

    def step(self, name):
        self.one(f"[data-step={name}]").click()

    def open(self, path):
        self.browser.execute_script("document.getElementById('file').hidden = false")
        self.browser.find_element(By.ID, "file").send_keys(str(path))
        self.browser.execute_script("document.getElementById('file').hidden = true")
        wait_for(lambda: self.all(".picture svg"), "the pictures of the boards")

    def downloaded(self, ending):
        def whole():
            found = [f for f in self.downloads.iterdir() if f.name.endswith(ending)]
            return found[0] if found else None
        path = wait_for(whole, f"a file *{ending}")
        size = -1
        while path.stat().st_size != size:  # still growing
            size = path.stat().st_size
            time.sleep(0.2)
        data = path.read_bytes()
        path.unlink()
        return data

    def save(self):
        self.one("#save").click()
        return self.downloaded(".yaml")

    def answer_who_cuts(self):
        """The question before the first sheet: a grown foot."""
        for radio in self.all(".question-box input[type=radio]"):
            label = radio.find_element(By.XPATH, "./ancestor::label|./following-sibling::label").text
            if re.search(r"grown|no", label, re.I) and not re.search(r"still growing", label, re.I):
                self.click(radio)
                return

    def cut(self, order, *options):
        file = self.home / "order.yaml"
        file.write_bytes(order)
        done = subprocess.run([self.program, "cut", "-q", file, "-o", self.home / "cut.pdf", *options],
                              env=self.environment, capture_output=True, text=True)
        expect(done.returncode == 0, done.stderr)
        return (self.home / "cut.pdf").read_bytes()

    def messages(self, key):
        return " ".join(m.text for m in self.all(f"[data-key='{key}'] .message") if m.is_displayed())


def new_order(page):
    page.type("dancer", "M-07")
    page.type("feet.left.length", "238; 238.5")
    page.type("feet.left.ball_length", "172")
    page.type("feet.left.heel_front", "61")
    page.type("feet.left.arch_break.medial", "97")
    page.type("feet.left.arch_break.lateral", "93")
    page.type("feet.left.fold", "6")
    for button in page.all(".foot.right button"):
        if button.is_displayed() and button.text == "same as left":
            page.click(button)
    page.click(page.one("input[value=loose]"))
    page.type("shoe.board.length", "220")
    page.type("shoe.board.inset", "5")
    rows = page.all("[data-key='shoe.board.widths'] input[type=text]")
    for box, figure in zip(rows, ("22", "45", "96", "33")):
        box.send_keys(figure)
    wait_for(lambda: len(page.all(".picture svg")) >= 2, "the pictures of both boards")


def sheets_of(page):
    page.step("mark")
    page.answer_who_cuts()
    page.press("#mark", "Make")
    return page.downloaded(".pdf")


def check_new_order(page):
    new_order(page)
    pdf = sheets_of(page)
    order = page.save()
    expect(b"M-07" in order, "the order file has no dancer")
    expect(b"238, 238.5" in order, "the repeated reading is lost")
    expect(pdf == page.cut(order), "the page's PDF differs from that of cut")


def check_mistakes(page):
    page.open(SAMPLES / "plain.yaml")
    for key in ("length", "ball_length", "heel_front", "arch_break.medial", "arch_break.lateral",
                "arch_depth", "fold"):
        path = f"feet.left.{key}"
        before = page.box(path).get_attribute("value")
        page.type(path, "6l")
        wait_for(lambda: page.messages(path), f"a message beside {path}")
        expect(page.box(path).get_attribute("aria-invalid") == "true", f"{path} is not marked wrong")
        page.type(path, before)
        wait_for(lambda: not page.messages(path), f"the message beside {path} to go")


def check_try(page):
    page.open(SAMPLES / "plain.yaml")
    page.step("try")
    page.one("#try input[type=text]").send_keys("50")
    page.click(page.one("#try input[value=too-low]"))
    page.click(page.one("#try button[type=submit]"))
    words = wait_for(lambda: page.one(".verdict").text, "the verdict")
    expect("witness" in words, f"the verdict is {words}")


def check_same_as_left(page):
    page.type("feet.left.heel_front", "63")
    row = page.one("[data-key='feet.right.heel_front']")
    page.click(row.find_element(By.CSS_SELECTOR, "button"))
    expect(page.box("feet.right.heel_front").get_attribute("value") == "63", "the right box is not 63")


def check_file_comes_back(page):
    path = SAMPLES / "whole_order.yaml"
    page.open(path)
    expect(page.save() == path.read_bytes(), "an unchanged file came back changed")
    expect("comments" in page.one("#file-notice").text, "comments are not mentioned")
    page.type("feet.left.heel_front", "62")
    wait_for(lambda: page.one("#unsaved").is_displayed(), "'not saved'")
    time.sleep(1)
    pdf = sheets_of(page)  # the question before it becomes part of the order
    changed = page.save()
    expect(b"heel_front: 62" in changed, "the change is not in the file")
    expect(pdf == page.cut(changed), "the PDF of the changed order differs from cut's")


def check_keyboard(page):
    page.open(SAMPLES / "plain.yaml")
    page.browser.execute_script("document.activeElement.blur(); window.scrollTo(0, 0)")
    seen = []
    for _ in range(400):
        webdriver.ActionChains(page.browser).send_keys(Keys.TAB).perform()
        state = page.browser.execute_script(
            "const a = document.activeElement; if (a === document.body) return null;"
            "a.dataset.seen = (Number(a.dataset.seen) || 0) + 1;"
            "const r = a.getBoundingClientRect(); const s = getComputedStyle(a);"
            "return [a.outerHTML.slice(0, 80), Number(a.dataset.seen),"
            " r.bottom > 0 && r.top < innerHeight, s.outlineStyle !== 'none' || s.boxShadow !== 'none']")
        if state is None or state[1] > 1:
            break
        seen.append(state)
        expect(state[2], f"out of sight when it has the focus: {state[0]}")
        expect(state[3], f"the focus does not show: {state[0]}")
    expect(len(seen) > 30, f"Tab reaches {len(seen)} controls only")
    left = page.browser.execute_script(
        "return [...document.querySelectorAll('button, input, select, summary, textarea')].filter(e =>"
        " e.offsetParent && !e.disabled && e.tabIndex >= 0 && !e.dataset.seen &&"
        " !(e.type === 'radio')).map(e => e.outerHTML.slice(0, 80))")
    expect(not left, f"Tab never reaches {left[:3]}")


def check_widths(program, pictures):
    for width in WIDTHS:
        for dark in (False, True):
            page = Page(program, width, 900, dark)
            try:
                page.open(SAMPLES / "whole_order.yaml")
                for step in ("measure", "mark", "try", "closer", "archive"):
                    page.step(step)
                    time.sleep(0.5)
                    wide = page.browser.execute_script("return document.documentElement.scrollWidth")
                    expect(wide <= width, f"{step} is {wide} px wide in a window of {width}")
                    if pictures:
                        name = f"{width}_{'dark' if dark else 'light'}_{step}.png"
                        page.browser.save_screenshot(str(pathlib.Path(pictures) / name))
            finally:
                page.close()


def check_quiet(page):
    """No error on the console, and no request to anywhere but the page's own server."""
    for entry in page.browser.get_log("browser"):
        expect(entry["level"] != "SEVERE" or " 422 " in entry["message"], entry["message"])
    origin = page.address.split("/#")[0]
    for entry in page.browser.get_log("performance"):
        message = json.loads(entry["message"])["message"]
        if message["method"] == "Network.requestWillBeSent":
            url = message["params"]["request"]["url"]
            own = url.startswith((origin + "/", "blob:" + origin, "data:", "chrome"))
            expect(own, f"a request went to {url}")


def check_axe(program, axe):
    source = pathlib.Path(axe).read_text()
    for dark in (False, True):
        page = Page(program, 1440, 900, dark)
        try:
            for filled in (False, True):
                if filled:
                    page.open(SAMPLES / "whole_order.yaml")
                for step in ("measure", "mark", "try", "closer", "archive"):
                    page.step(step)
                    time.sleep(0.5)
                    page.browser.execute_script(source)
                    found = page.browser.execute_async_script(
                        "const done = arguments[1]; axe.run(document, {runOnly: arguments[0]}).then(done)",
                        WCAG)["violations"]
                    words = [f"{v['id']}: {v['nodes'][0]['html'][:120]}" for v in found]
                    expect(not found, f"{step}, {'dark' if dark else 'light'}: {words}")
        finally:
            page.close()


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("program")
    parser.add_argument("--smoke", action="store_true")
    parser.add_argument("--axe")
    parser.add_argument("--pictures")
    options = parser.parse_args()
    passed = failed = 0

    def run(name, check):
        nonlocal passed, failed
        try:
            check()
            passed += 1
            print("ok", name, flush=True)
        except Exception as fault:  # a browser's own faults too
            failed += 1
            print(f"FAILED {name}: {str(fault).splitlines()[0] if str(fault) else type(fault).__name__}",
                  flush=True)

    def on_a_page(check):
        page = Page(options.program)
        try:
            check(page)
            check_quiet(page)
        finally:
            page.close()

    checks = [("a new order gives the PDF of cut", check_new_order)]
    if not options.smoke:
        checks += [("a mistake stands beside its box", check_mistakes),
                   ("a try gives the next line", check_try),
                   ("the right foot takes the left one's reading", check_same_as_left),
                   ("a file comes back byte for byte, and changed", check_file_comes_back),
                   ("the keyboard reaches everything", check_keyboard)]
    for name, check in checks:
        run(name, lambda check=check: on_a_page(check))
    if not options.smoke:
        run("no step is wider than its window", lambda: check_widths(options.program, options.pictures))
    if options.axe:
        run("axe-core finds no violation", lambda: check_axe(options.program, options.axe))
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
