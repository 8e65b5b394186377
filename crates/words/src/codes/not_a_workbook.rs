//! `not-a-workbook`

code! {
    "not-a-workbook"
    title: "This is not an XLSX workbook" | "Dies ist keine XLSX-Arbeitsmappe",
    message: "this is not an XLSX workbook: {reason}" | "Das ist keine XLSX-Arbeitsmappe: {reason}",
    hint: "save it as XLSX; a template is made by: latchline new --survey" | "als XLSX speichern; eine Vorlage macht: latchline new --survey",
    english:
        /// A survey is a workbook (XLSX), or a folder of CSV files with one sheet each.
        ///
        /// Save the workbook as XLSX; for a template: latchline new --survey.
    german:
        /// Eine Aufnahme ist eine Arbeitsmappe (XLSX) oder ein Ordner mit CSV-Dateien, je Blatt eine.
        ///
        /// Die Arbeitsmappe als XLSX speichern; eine Vorlage macht: latchline new --survey.
}
