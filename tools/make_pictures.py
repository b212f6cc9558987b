"""Take the pictures of docs/pictures/ anew from the demo, in a real browser.

    .venv/bin/python tools/make_pictures.py [--every FOLDER]

``--every`` puts a picture of every page, on phone and laptop, by day and by night, into a folder to look at.
"""

import base64
import io
import re
import shutil
import struct
import subprocess
import sys
import tempfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

import numpy as np
from playwright.sync_api import Browser, Page, sync_playwright
from pypdf import PdfReader

from meetward.catalogue.reading import shipped
from meetward.demo import pasted_text
from meetward.publish.shelf import catalogue_pdf

ROOT = Path(__file__).resolve().parents[1]
PICTURES = ROOT / "docs" / "pictures"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--hide-scrollbars"]
PHONE, LAPTOP = (360, 740), (1280, 800)
MOST_BYTES = 150_000


class Picture(NamedTuple):
    """A picture: file name, address, width and height, colour scheme, and what to bring to the top."""

    name: str
    address: str
    size: tuple[int, int]
    scheme: str = "light"
    top: str = ""


KEPT = (
    Picture("cycle", "/cycles/2/", LAPTOP, top=".subject"),
    Picture("session", "/cycles/2/weeks/1/sessions/2/?lifter={key}", LAPTOP, top=".choose"),
    Picture("day", "/squad/{key}/days/week-1-session-2/", PHONE, "dark", top="section.lifts h3"),
    Picture("check", "/cycles/new/", LAPTOP, top=".desk"),
    Picture("squad", "/squad/", LAPTOP),
    Picture("lifter", "/squad/{key}/", LAPTOP, "dark"),
    Picture("catalogue", "/catalogue/?q=snacth+blance", LAPTOP),
    Picture("entry", "/catalogue/snatch/", LAPTOP, top="h1"),
    Picture("entry-phone", "/catalogue/front_squat/", PHONE, "dark", top="h1"),
    Picture("entry-split-jerk", "/catalogue/split_jerk/", PHONE, top="h1"),
    Picture("entry-hang-power-snatch", "/catalogue/hang_power_snatch/", PHONE, top="h1"),
    Picture("entry-pull-up", "/catalogue/pull_up/", PHONE, top="h1"),
    Picture("entry-ankle-rock", "/catalogue/ankle_rock/", PHONE, "dark", top="h1"),
    Picture("entry-romanian-deadlift", "/catalogue/romanian_deadlift/", PHONE, top="h1"),
    Picture("day-new", "/squad/{key}/days/week-1-session-1/", PHONE, top="section.lifts h3"),
    Picture("positions", "/squad/tobias-marr/positions/?heel=20", LAPTOP, top=".pictures"),
    Picture("teaching", "/cycles/2/weeks/1/sessions/1/teaching/", LAPTOP, top="section.lifts h2"),
)
EVERY = (
    "/", "/cycles/", "/cycles/2/", "/cycles/2/weeks/1/sessions/2/",
    "/cycles/2/weeks/9/sessions/1/?lifter={key}", "/cycles/2/weeks/1/sessions/1/teaching/",
    "/cycles/2/text/", "/cycles/2/versions/1/", "/cycles/new/",
    "/squad/", "/squad/{key}/",
    "/squad/{key}/days/week-1-session-2/", "/squad/{key}/days/2027-01-03/", "/squad/{key}/week/1/",
    "/squad/tobias-marr/positions/?heel=20", "/squad/tobias-marr/positions/measures/",
    "/import/squad/", "/catalogue/", "/catalogue/?q=jerk", "/catalogue/snatch/",
    "/catalogue/snatch_bar_warm_up/", "/catalogue/?family=pull&equipment=blocks", "/catalogue/ankle_rock/",
    "/catalogue/snatch/change/", "/own-catalogue/", "/own-catalogue/new/movement/",
    "/own-catalogue/new/drill/", "/own-catalogue/text/", "/import/catalogue/", "/nowhere/",
)  # fmt: skip

# The browser unpacks its own picture, so that nothing else has to be installed for it.
PIXELS = """async packed => {
    const picture = await createImageBitmap(await (await fetch("data:image/png;base64," + packed)).blob());
    const context = new OffscreenCanvas(picture.width, picture.height).getContext("2d");
    context.drawImage(picture, 0, 0);
    const bytes = context.getImageData(0, 0, picture.width, picture.height).data;
    let text = "";
    for (let at = 0; at < bytes.length; at += 32768)
        text += String.fromCharCode(...bytes.subarray(at, at + 32768));
    return [picture.width, picture.height, btoa(text)];
}"""


def main() -> None:
    every = Path(sys.argv[sys.argv.index("--every") + 1]) if "--every" in sys.argv else None
    chromium = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if chromium is None:
        sys.exit("Chromium is not installed; tools/test-needs says how to get it.")
    with demo() as address, sync_playwright() as player:
        browser = player.chromium.launch(executable_path=chromium, args=FLAGS)
        if every:
            every.mkdir(parents=True, exist_ok=True)
            take_every(browser, address, every)
        else:
            PICTURES.mkdir(parents=True, exist_ok=True)
            take_kept(browser, address)


@contextmanager
def demo() -> Iterator[str]:
    """The demo served from a folder that goes with it; its address."""
    with tempfile.TemporaryDirectory() as folder:
        server = subprocess.Popen(
            [
                sys.executable,
                "-c",
                "from meetward.cli.main import app; app()",
                "demo",
                "--data",
                folder + "/demo",
            ],
            stdout=subprocess.PIPE,
            text=True,
        )
        try:
            assert server.stdout is not None
            found = re.search(r"http://\S+", server.stdout.readline())
            if found is None:
                sys.exit("The demo did not start.")
            yield found.group().rstrip("/")
        finally:
            server.terminate()
            server.wait(timeout=20)


def take_kept(browser: Browser, site: str) -> None:
    for picture in KEPT:
        page, key = signed_in(browser, site, picture.size, picture.scheme)
        if picture.name == "check":
            paste(page, site)
        else:
            page.goto(site + picture.address.format(key=key))
        if picture.top:
            page.locator(picture.top).first.evaluate(
                "e => window.scrollTo(0, e.getBoundingClientRect().top + scrollY - 16)"
            )
        keep(page, picture.name, page.screenshot())
        page.context.close()
    page = browser.new_page()
    keep(page, "book", page_of_the_book("Clean"))
    page.context.close()


def keep(page: Page, name: str, png: bytes) -> None:
    file = PICTURES / f"{name}.png"
    page.goto("about:blank")  # away from the site, whose policy lets no picture in
    file.write_bytes(smaller(page, png))
    size = file.stat().st_size
    print(f"{file.relative_to(ROOT)}: {size // 1000} kB")
    if size > MOST_BYTES:
        sys.exit(f"{file.name} is larger than {MOST_BYTES // 1000} kB; show less of the page.")


def page_of_the_book(entry: str) -> bytes:
    """The page of the printed catalogue on which an entry begins, as PNG."""
    book = catalogue_pdf(shipped())
    heading = re.compile(rf"^{entry}\s*$", re.MULTILINE)
    texts = [page.extract_text() for page in PdfReader(io.BytesIO(book)).pages]
    number = max(n for n, text in enumerate(texts, start=1) if heading.search(text) and "Set-up:" in text)
    return subprocess.run(
        ["pdftoppm", "-r", "80", "-png", "-f", str(number), "-l", str(number), "-"],
        input=book,
        capture_output=True,
        check=True,
    ).stdout


def smaller(page: Page, png: bytes) -> bytes:
    """A picture with at most 256 colours, which is all that a page of text and drawings needs."""
    width, height, pixels = page.evaluate(PIXELS, base64.b64encode(png).decode())
    colours = np.frombuffer(base64.b64decode(pixels), np.uint8).reshape(-1, 4)[:, :3].astype(np.uint32)
    exact, index, count = np.unique(
        colours @ np.array([65536, 256, 1]), return_inverse=True, return_counts=True
    )
    for bits in range(9):
        # Colours that agree but for their last bits become the most frequent one among them.
        blurred = exact >> bits & (0x010101 * (0xFF >> bits))
        order = np.lexsort((-count, blurred))
        kinds, first, kind = np.unique(blurred[order], return_index=True, return_inverse=True)
        if len(kinds) <= 256:
            break
    packed = exact[order][first]
    kind_of = np.empty_like(kind)
    kind_of[order] = kind
    index = kind_of[index]
    rows = np.zeros((height, width + 1), np.uint8)  # the first byte of a row names its filter: none
    rows[:, 1:] = index.reshape(height, width)
    palette = np.stack([packed >> 16, packed >> 8 & 255, packed & 255], axis=1).astype(np.uint8)
    head = struct.pack(">IIBBBBB", width, height, 8, 3, 0, 0, 0)
    parts = (
        (b"IHDR", head),
        (b"PLTE", palette.tobytes()),
        (b"IDAT", zlib.compress(rows.tobytes(), 9)),
        (b"IEND", b""),
    )
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        for kind, body in parts
    )


def take_every(browser: Browser, site: str, folder: Path) -> None:
    for scheme in ("light", "dark"):
        for size in (PHONE, LAPTOP):
            page, key = signed_in(browser, site, size, scheme)
            for number, address in enumerate(EVERY):
                page.goto(site + address.format(key=key))
                page.screenshot(path=folder / f"{number:02}-{size[0]}-{scheme}.png", full_page=True)
            paste(page, site)
            page.screenshot(path=folder / f"{len(EVERY)}-{size[0]}-{scheme}.png", full_page=True)
            page.context.close()


def signed_in(browser: Browser, site: str, size: tuple[int, int], scheme: str) -> tuple[Page, str]:
    """A page signed in as the demo coach, and the key of a lifter with a patchy profile."""
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    page = context.new_page()
    page.goto(site)
    page.get_by_role("button", name="Sign in as the demo coach").click()
    page.goto(f"{site}/squad/")
    address = page.locator("tbody th a").nth(3).get_attribute("href") or ""
    return page, address.split("/")[2]


def paste(page: Page, site: str) -> None:
    """The page that shows what was understood of a pasted text."""
    page.goto(f"{site}/cycles/new/")
    page.locator("textarea").evaluate("(field, words) => { field.value = words }", pasted_text())
    page.get_by_role("button", name="Check").click()


if __name__ == "__main__":
    main()
