//! Every kind of finding that reading a survey can make, besides [`latchline_site::codes::UNKNOWN_NAME`]. What they say is in the
//! crate of words.

latchline_finding::codes! {
    NOT_A_WORKBOOK, "not-a-workbook", Error, ["reason"];
    SHEET_UNREADABLE, "sheet-unreadable", Error, ["sheet", "reason"];
    SHEET_TWICE, "sheet-twice", Error, ["sheet"];
    SHEET_MISSING, "sheet-missing", Error, ["sheet"];
    TOO_MANY_ROWS, "too-many-rows", Error, ["limit"];
    TOO_MANY_CELLS, "too-many-cells", Error, ["limit"];
    UNPACKS_TOO_LARGE, "unpacks-too-large", Error, ["megabytes"];
    MERGED_CELLS, "merged-cells", Error, [];
    COLUMN_MISSING, "column-missing", Error, ["sheet", "column"];
    COLUMN_TWICE, "column-twice", Error, ["column"];
    COLUMN_UNKNOWN, "column-unknown", Warning, ["column", "nearest"];
    CELL_EMPTY, "cell-empty", Error, ["column"];
    CELL_NOT_UNDERSTOOD, "cell-not-understood", Error, ["found", "expected", "column?"];
    CELL_OUT_OF_RANGE, "cell-out-of-range", Error, ["found", "least", "most", "column?"];
    FORMULA_WITHOUT_VALUE, "formula-without-value", Error, ["fault", "column?"];
    NAME_USED_TWICE, "name-used-twice", Error, ["name", "row", "column?"];
    NAME_NOT_USABLE, "name-not-usable", Error, ["name", "column?"];
    UNKNOWN_SETTING, "unknown-setting", Error, ["name", "nearest"];
    ROUTE_TO_ITSELF, "route-to-itself", Error, ["place"];
    OFF_THE_ROUTES, "off-the-routes", Error, ["place"];
    NO_PLACE_WITH_MAINS, "no-place-with-mains", Error, [];
    NO_PLACE_FOR_BOXES, "no-place-for-boxes", Error, [];
    NO_DWELLINGS, "no-dwellings", Error, [];
    SETTINGS_CONTRADICT, "settings-contradict", Error, ["detail"];
}
