//! `too-many-tables`

code! {
    "too-many-tables"
    title: "The file has too many table headers" | "Die Datei hat zu viele Tabellenköpfe",
    message: "the file has more than {limit} tables" | "Die Datei hat mehr als {limit} Tabellen",
    label: "the first beyond" | "die erste zu viel",
    hint:
        "check that it is a site or catalogue file; write small tables inline"
        | "prüfen, ob es eine Anlagen- oder Katalogdatei ist; kleine Tabellen in eine Zeile schreiben",
    english:
        /// At most ten thousand lines may begin with a bracket. Write dwellings and runs in one line each, as `A-1 = { place = "A/1" }` under one [dwellings], instead of one header for each.
    german:
        /// Höchstens zehntausend Zeilen dürfen mit einer eckigen Klammer beginnen. Wohnungen und Stränge in je einer Zeile schreiben, als `A-1 = { place = "A/1" }` unter einem [dwellings], statt mit einem eigenen Tabellenkopf.
}
