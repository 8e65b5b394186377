//! `place-without-building`

code! {
    "place-without-building"
    title: "A place has too few or too many parts" | "Ein Ort hat zu wenige oder zu viele Teile",
    message: "\"{written}\" is not a place" | "„{written}“ ist kein Ort",
    label: "too few or too many parts" | "zu wenige oder zu viele Teile",
    hint:
        "write building, building/floor, building/core/floor, or outdoors"
        | "Gebäude, Gebäude/Geschoss, Gebäude/Treppenhaus/Geschoss oder outdoors schreiben",
    english:
        /// A place is "building", "building/floor", "building/core/floor" or "outdoors".
        ///
        /// Example: `place = "A/North/1/left"`.
    german:
        /// Ein Ort ist „Gebäude“, „Gebäude/Geschoss“, „Gebäude/Treppenhaus/Geschoss“ oder „outdoors“.
        ///
        /// Beispiel: `place = "A/Nord/1/links"`.
}
