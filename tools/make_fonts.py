"""Put the typeface into the package: woff2 for pages, TrueType for typesetting, the licence beside them.

    npm pack @fontsource/atkinson-hyperlegible-next && tar xzf fontsource-*.tgz
    .venv/bin/python tools/make_fonts.py package

Run by hand when the typeface gets a new version; the files it writes are kept in the repository.
"""

import shutil
import sys
import tempfile
from pathlib import Path

from fontTools.merge import Merger
from fontTools.ttLib import TTFont

FAMILY = "Atkinson Hyperlegible Next"
STYLES = ("400-normal", "400-italic", "600-normal", "700-normal")
HOME = Path(__file__).resolve().parent.parent / "src" / "meetward" / "fonts"


def whole_font(parts: list[Path], out: Path) -> None:
    """One TrueType file out of the package's subsets: a typesetter looks for a letter in one file a style."""
    with tempfile.TemporaryDirectory() as folder:
        plain = []
        for part in parts:
            font = TTFont(part)
            font.flavor = None
            if "STAT" in font:  # names the axes of the variable original; these are fixed styles
                del font["STAT"]
            plain.append(str(Path(folder) / f"{part.stem}.ttf"))
            font.save(plain[-1])
        merged = Merger().merge(plain)
        merged["name"].removeNames(nameID=25)
        merged.save(out)


def main(package: Path) -> None:
    """Copy and convert the styles that pages and sheets use."""
    web, print_ = HOME / "web", HOME / "print"
    web.mkdir(parents=True, exist_ok=True)
    print_.mkdir(parents=True, exist_ok=True)
    for style in STYLES:
        parts = [
            package / "files" / f"atkinson-hyperlegible-next-{subset}-{style}.woff2"
            for subset in ("latin", "latin-ext")
        ]
        for part in parts:
            shutil.copyfile(part, web / part.name)
        out = print_ / f"atkinson-hyperlegible-next-{style}.ttf"
        whole_font(parts, out)
        font = TTFont(out)
        family = font["name"].getBestFamilyName()
        if family != FAMILY:
            sys.exit(f"{out.name} calls itself '{family}', not '{FAMILY}'; sheets look it up by that name.")
        print(f"{out.name}: {family}, weight {font['OS/2'].usWeightClass}, {len(font.getBestCmap())} signs")
    shutil.copyfile(package / "LICENSE", HOME / "OFL.txt")


if __name__ == "__main__":
    if len(sys.argv) != 2 or not (Path(sys.argv[1]) / "files").is_dir():
        sys.exit("Give the folder of the unpacked typeface package, the one that holds 'files'.")
    main(Path(sys.argv[1]))
