"""Tables of figures as pages show them: rounded to the safe side, in the station's unit, with their why."""

from __future__ import annotations

from procgen.diagnostics import Place
from procgen.model.stated import SourceRef
from procgen.publish import station_tree
from procgen.publish.figure_rows import figure_text, shown_table
from procgen.results.figures import Figure, FigureRow, FigureTable, Other
from procgen.units import of
from tests.publish.sites import checked, hold_site, site, templates

REF = SourceRef("WB", "1-1")


def table(figure: Figure) -> FigureTable:
    return FigureTable(
        "any", "any table", ("crew", "floor"), ("at most",), (FigureRow(("two", "flat"), (figure,)),)
    )


def test_loads_per_length_and_area_are_shown_in_both_units() -> None:
    """760 kg/m = 510.69 lb/ft, 732 kg/m2 = 149.93 lb/ft2; 1 lb/ft is 1.488164 kg/m (NIST SP 811, memory)."""
    running, area = Figure(of(760, "kg/m")), Figure(of(732, "kg/m2"))
    assert figure_text(running, "kg") == "760\u00a0kg/m (510\u00a0lb/ft)"
    assert figure_text(running, "lb") == "510\u00a0lb/ft (760\u00a0kg/m)"
    assert figure_text(area, "kg") == "732\u00a0kg/m2 (149\u00a0lb/ft2)"


def test_a_limit_goes_down_and_a_demand_up_in_both_units() -> None:
    # 1000.5 kg = 2205.72 lb
    mass = of("1000.5", "kg")
    assert figure_text(Figure(mass), "kg") == "1\u00a0000\u00a0kg (2\u00a0205\u00a0lb)"
    assert figure_text(Figure(mass, demand=True), "lb") == "2\u00a0206\u00a0lb (1\u00a0001\u00a0kg)"
    assert figure_text(Figure(mass, decimals=1), "kg") == "1\u00a0000.5\u00a0kg (2\u00a0205.7\u00a0lb)"


def test_what_is_no_mass_stays_in_its_unit() -> None:
    assert figure_text(Figure(of("35.7", "kt")), "lb") == "35 kt"
    assert figure_text(Figure(count=3, counted="people", demand=True), "lb") == "3 people"
    assert figure_text(Figure(), "kg") == "–"


def test_the_reason_that_governs_comes_first_and_nothing_is_lost() -> None:
    hold = hold_site("K1B", "SR-AFT")
    place = hold.hold.place
    figure = Figure(
        number=of(5, "kg"),
        governs="contact load",
        reckoning="5 = 5",
        others=(Other("area load", "9 kg", "3 × 3 = 9", (REF,), (place,)),),
        met=False,
        sources=(REF,),
        places=(place,),
    )
    shown = shown_table(hold, table(figure), "kg")
    (row,) = shown.rows
    assert row.labels == (("crew", "two"), ("floor", "flat"))
    (cell,) = row.cells
    assert cell.unmet
    assert not cell.plain
    assert [(why.title, why.reckoning) for why in cell.whys] == [
        ("contact load", "5 = 5"),
        ("area load", "3 × 3 = 9"),
    ]
    assert all(why.sources == (REF,) for why in cell.whys)
    assert all(why.places[0].startswith("fleet/holds/SR-AFT.yaml:") for why in cell.whys)


def test_a_figure_without_any_reason_has_nothing_to_open() -> None:
    hold = hold_site("K1B", "SR-AFT")
    (cell,) = shown_table(hold, table(Figure(of(0, "s"))), "kg").rows[0].cells
    assert cell.plain
    (cell,) = shown_table(hold, table(Figure(reasons=("it is forbidden",))), "kg").rows[0].cells
    assert not cell.plain


def test_the_page_shows_every_table_with_its_remarks_and_marks_what_is_not_met() -> None:
    for code in checked().network.stations:
        tree = station_tree(site(code), templates())
        for hold in site(code).holds:
            text = tree[f"docs/loads/{hold.hold.name}.md"]
            assert hold.tables.figures
            for found in hold.tables.figures:
                assert f"{{: #{found.name} }}" in text
                assert all(str(remark)[:30].split("“")[0] in text for remark in found.remarks)
                if found.rows:
                    assert f'id="table-{found.name}"' in text
            unmet = sum(f.met is False for t in hold.tables.figures for r in t.rows for f in r.figures)
            assert text.count("pg-unmet") == unmet


def test_lines_of_places_in_figures_are_known() -> None:
    hold = hold_site("K1B", "SR-AFT")
    places = {place for t in hold.tables.figures for r in t.rows for f in r.figures for place in f.places}
    assert Place("", ()) not in places
    shown = shown_table(hold, next(t for t in hold.tables.figures if t.name == "tie-down"), "kg")
    assert all(
        ":" in place for row in shown.rows for cell in row.cells for why in cell.whys for place in why.places
    )
