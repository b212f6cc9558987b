"""The browser, the spreadsheet program and the PDF tool that other tests lean on do their job here."""

import subprocess
from pathlib import Path

import openpyxl
import pypdf
import typst
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import sync_playwright

from tests.house.house import SRC

NAMELESS_FIELD = "<html lang=en><title>Weigh-in</title><main><h1>Weigh-in</h1>{}</main></html>"


def test_the_browser_opens_a_page_and_the_accessibility_rules_notice_a_field_without_a_name(chromium_path):
    with sync_playwright() as player:
        browser = player.chromium.launch(executable_path=str(chromium_path), args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 390, "height": 844})
        page.set_content(NAMELESS_FIELD.format("<label>Bodyweight <input></label>"))
        good = Axe().run(page)
        page.set_content(NAMELESS_FIELD.format("<input>"))
        bad = Axe().run(page)
        browser.close()

    assert good.response["violations"] == []
    assert [fault["id"] for fault in bad.response["violations"]] == ["label"]


def test_the_spreadsheet_program_recalculates_a_workbook(soffice_path, tmp_path: Path):
    book = openpyxl.Workbook()
    book.active.append([150, "=A1*7/10"])
    book.save(tmp_path / "kilos.xlsx")

    subprocess.run(
        [
            soffice_path,
            f"-env:UserInstallation=file://{tmp_path / 'profile'}",
            "--headless",
            *("--convert-to", "xlsx", "--outdir", tmp_path / "out", tmp_path / "kilos.xlsx"),
        ],
        check=True,
        capture_output=True,
        timeout=120,
    )

    assert openpyxl.load_workbook(tmp_path / "out" / "kilos.xlsx", data_only=True).active["B1"].value == 105


def test_a_typeset_page_is_set_in_our_typeface_and_becomes_a_picture(pdftoppm_path, tmp_path: Path):
    (tmp_path / "sheet.typ").write_text('#set text(font: "Atkinson Hyperlegible Next")\n5 × 3 at 70–75 %\n')
    typst.compile(
        str(tmp_path / "sheet.typ"),
        output=str(tmp_path / "sheet.pdf"),
        font_paths=[str(SRC / "fonts" / "print")],
        ignore_system_fonts=True,
    )

    page = pypdf.PdfReader(tmp_path / "sheet.pdf").pages[0]
    fonts = {str(font.get_object()["/BaseFont"]) for font in page["/Resources"]["/Font"].values()}
    subprocess.run([pdftoppm_path, "-png", "-r", "30", tmp_path / "sheet.pdf", tmp_path / "page"], check=True)

    assert all("AtkinsonHyperlegibleNext-Regular" in name for name in fonts)
    assert fonts
    assert "5 × 3 at 70–75 %" in page.extract_text()
    assert [picture.name for picture in tmp_path.glob("*.png")] == ["page-1.png"]
