//! `merged-cells`

code! {
    "merged-cells"
    title: "Cells are merged" | "Zellen sind verbunden",
    message: "merged cells" | "Verbundene Zellen",
    hint: "unmerge them and repeat the value in every row that it holds for" | "die Verbindung lösen und den Wert in jeder Zeile wiederholen, für die er gilt",
    english:
        /// A merged cell holds its value in its first row only; the others would be read as empty.
        ///
        /// Unmerge them and repeat the value in every row that it holds for.
    german:
        /// Eine verbundene Zelle hat ihren Wert nur in der ersten Zeile; die anderen würden leer gelesen.
        ///
        /// Die Verbindung lösen und den Wert in jeder Zeile wiederholen, für die er gilt.
}
