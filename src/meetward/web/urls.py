"""Every address of the site."""

from django.contrib.auth.views import LoginView, LogoutView
from django.urls import path, register_converter

from .pages import (
    catalogue,
    cycles,
    days,
    entry,
    entry_form,
    fits,
    home,
    lifter,
    measuring,
    own_catalogue,
    positions,
    squad,
    squad_fits,
    teaching,
    text,
)
from .pages.when import Number, When

register_converter(Number, "number")
register_converter(When, "when")

handler400 = "meetward.web.pages.refusals.refused"
handler403 = "meetward.web.pages.refusals.not_allowed"
handler404 = "meetward.web.pages.refusals.not_found"

urlpatterns = [
    path("", home.home, name="home"),
    path("sign-in/", LoginView.as_view(template_name="web/sign_in.html"), name="sign-in"),
    path("start/", home.start, name="start"),
    path("sign-out/", LogoutView.as_view(), name="sign-out"),
    path("demo/sign-in/", home.sign_in_to_demo, name="demo-sign-in"),
    path("clubs/<number:club>/look/", home.look_at_club, name="look-at-club"),
    path("cycles/", cycles.cycles, name="cycles"),
    path("cycles/new/", text.new, name="cycle-new"),
    path("cycles/<number:book>/", cycles.cycle, name="cycle"),
    path("cycles/<number:book>/train/", cycles.train_from, name="cycle-train"),
    path("cycles/<number:book>/text/", text.text, name="cycle-text"),
    path("cycles/<number:book>/versions/<number:number>/", text.version, name="cycle-version"),
    path("cycles/<number:book>/cycle.json", cycles.as_json, name="cycle-json"),
    path("cycles/<number:book>/weeks/<number:week>/wall.pdf", days.wall, name="wall-pdf"),
    path(
        "cycles/<number:book>/weeks/<number:week>/sessions/<number:session>/", cycles.session, name="session"
    ),
    path(
        "cycles/<number:book>/weeks/<number:week>/sessions/<number:session>/teaching/",
        teaching.teaching,
        name="teaching",
    ),
    path(
        "cycles/<number:book>/weeks/<number:week>/sessions/<number:session>/teaching.pdf",
        teaching.teaching_pdf,
        name="teaching-pdf",
    ),
    path("squad/", squad.squad, name="squad"),
    path("squad/<slug:key>/", lifter.lifter, name="lifter"),
    path("squad/<slug:key>/days/", days.next_day, name="next-day"),
    path("squad/<slug:key>/days/<when:when>/", days.day, name="day"),
    path("squad/<slug:key>/days/<when:when>/sheet.pdf", days.sheet, name="day-pdf"),
    path("squad/<slug:key>/week/<number:week>/", days.week, name="lifter-week"),
    path("squad/<slug:key>/week/<number:week>/week.pdf", days.week_sheet, name="week-pdf"),
    path("squad/<slug:key>/positions/", positions.positions, name="positions"),
    path("squad/<slug:key>/positions/measures/", measuring.measuring, name="measuring"),
    path("squad/<slug:key>/positions/positions.json", positions.as_json, name="positions-json"),
    path("squad/<slug:key>/positions/delete/", positions.delete, name="positions-delete"),
    path("squad/<slug:key>/fit/", fits.fit, name="fit"),
    path("squad/<slug:key>/fit/yes/", fits.say_yes, name="fit-yes"),
    path("squad/<slug:key>/fit/take-back/", fits.take_back, name="fit-take-back"),
    path("squad/<slug:key>/fit/fit.json", fits.as_json, name="fit-json"),
    path("squad/<slug:key>/fit/delete/", fits.delete, name="fit-delete"),
    path("fits/", squad_fits.fits, name="fits"),
    path("import/squad/", squad.bring_in, name="squad-import"),
    path("export/squad.csv", squad.as_csv, name="squad-csv"),
    path("export/squad.xlsx", squad.as_xlsx, name="squad-xlsx"),
    path("catalogue/", catalogue.catalogue, name="catalogue"),
    path("catalogue/catalogue.pdf", teaching.book, name="catalogue-pdf"),
    path("catalogue/<slug:entry>/", entry.entry, name="entry"),
    path("catalogue/<slug:entry>/change/", entry_form.change, name="entry-change"),
    path("catalogue/<slug:entry>/take-back/", entry_form.take_back, name="entry-take-back"),
    path("own-catalogue/", own_catalogue.own, name="own-catalogue"),
    path("own-catalogue/text/", own_catalogue.text, name="own-catalogue-text"),
    path("own-catalogue/versions/<number:number>/", own_catalogue.version, name="own-catalogue-version"),
    path("own-catalogue/own-catalogue.toml", own_catalogue.as_file, name="own-catalogue-file"),
    path("own-catalogue/new/<slug:kind>/", entry_form.new, name="entry-new"),
    path("import/catalogue/", own_catalogue.bring_in, name="own-catalogue-import"),
]
