//! `sheet-unreadable`

code! {
    "sheet-unreadable"
    title: "A sheet cannot be read" | "Ein Blatt ist nicht lesbar",
    message:
        "the sheet \"{sheet}\" cannot be read: {reason}"
        | "Das Blatt „{sheet}“ ist nicht lesbar: {reason}",
    hint: "open and save the workbook once more, or export the sheet as CSV" | "die Arbeitsmappe noch einmal öffnen und speichern oder das Blatt als CSV ausgeben",
    english:
        /// The workbook holds the sheet, but not in a form that can be read. Open and save the workbook once more, or export the sheet as CSV.
    german:
        /// Die Arbeitsmappe enthält das Blatt, aber nicht in lesbarer Form. Die Arbeitsmappe noch einmal öffnen und speichern oder das Blatt als CSV ausgeben.
}
