//! Every kind of finding that reading a survey can make, besides those of [`latchline_site::codes`] that site files share. What they say is in the
//! crate of words.

latchline_finding::codes! {
    NOT_A_WORKBOOK, "not-a-workbook", Error, ["reason"];
    SHEET_UNREADABLE, "sheet-unreadable", Error, ["sheet", "reason"];
    SHEET_TWICE, "sheet-twice", Error, ["sheet"];
    SHEET_MISSING, "sheet-missing", Error, ["sheet"];
    TOO_MANY_ROWS, "too-many-rows", Error, ["limit"];
    TOO_MANY_CELLS, "too-many-cells", Error, ["limit"];
    TOO_MANY_COLUMNS, "too-many-columns", Warning, ["limit"];
    UNPACKS_TOO_LARGE, "unpacks-too-large", Error, ["megabytes"];
    MERGED_CELLS, "merged-cells", Error, [];
    COLUMN_MISSING, "column-missing", Error, ["sheet", "column"];
    COLUMN_TWICE, "column-twice", Error, ["column"];
    COLUMN_UNKNOWN, "column-unknown", Warning, ["column", "nearest"];
    CELL_WITHOUT_HEADING, "cell-without-heading", Warning, ["found", "others?", "separator?", "written?"];
    CELL_EMPTY, "cell-empty", Error, ["column"];
    CELL_NOT_UNDERSTOOD, "cell-not-understood", Error, ["found", "expected", "column?"];
    CELL_OUT_OF_RANGE, "cell-out-of-range", Error, ["found", "least", "most", "column?"];
    FORMULA_WITHOUT_VALUE, "formula-without-value", Error, ["fault", "column?"];
    NAME_USED_TWICE, "name-used-twice", Error, ["name", "row", "column?"];
    NAME_NOT_USABLE, "name-not-usable", Error, ["name", "column?"];
    UNKNOWN_SETTING, "unknown-setting", Error, ["name", "nearest"];
    ROUTE_TO_ITSELF, "route-to-itself", Error, ["place"];
    OFF_THE_ROUTES, "off-the-routes", Error, ["place", "others?"];
    NO_ROUTE_TO_CALLED, "no-route-to-called", Error, ["called", "others?"];
    NO_PLACE_WITH_MAINS, "no-place-with-mains", Error, [];
    NO_PLACE_FOR_BOXES, "no-place-for-boxes", Error, [];
    NO_DWELLINGS, "no-dwellings", Error, [];
    DROP_COLUMN_MISSING, "drop-column-missing", Warning, ["sheet"];
    DROP_NOT_STATED, "drop-not-stated", Warning, [];
    NAMES_MADE_ONE_WORD, "names-made-one-word", Advice, ["written", "name", "others?"];
    SHEET_UNKNOWN, "sheet-unknown", Warning, ["sheet", "nearest"];
    PERCENTAGE_BELOW_ONE, "percentage-below-one", Warning, ["found", "column?"];
    ROUTE_TWICE, "route-twice", Warning, ["from", "to", "row"];
    ROUTE_WITHOUT_LENGTH, "route-without-length", Warning, ["from", "to"];
    ROUTE_UNLIKE_OTHERS, "route-unlike-others", Warning, ["from", "to", "length", "usual"];
    FLOORS_OUT_OF_ORDER, "floors-out-of-order", Warning, ["from", "to", "between"];
    PLACE_WITHOUT_FLOOR, "place-without-floor", Warning, [];
    NUMBERS_ALIKE, "numbers-alike", Warning, ["name", "other", "row"];
    WITHDRAWAL_WITHOUT_PART, "withdrawal-without-part", Warning, ["name", "nearest"];
    PART_OF_ANOTHER_FAMILY, "part-of-another-family", Error, ["name", "family", "expected", "choices"];
    LOOP_NOT_OF_CABLE, "loop-not-of-cable", Warning, ["loop", "cable", "expected"];
    LOCKED_ROUTE_UNKNOWN, "locked-route-unknown", Error, ["from", "to"];
    CELL_WITHOUT_USE, "cell-without-use", Warning, ["found", "column?"];
    DECISIONS_CONTRADICT, "decisions-contradict", Error, ["one", "other"];
    SETTINGS_CONTRADICT, "settings-contradict", Error, ["detail"];
}
