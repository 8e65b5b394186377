//! `addresses-exhausted`

code! {
    "addresses-exhausted"
    title: "No number is left" | "Keine Nummer ist mehr frei",
    short: "no number left" | "keine Nummer frei",
    message:
        "no {field} number is left for {element}: {first} to {last} are taken"
        | "Für {element} ist im Feld {field} keine Nummer mehr frei: {first} bis {last} sind vergeben",
    hint:
        "leave one of them out, or divide the site into two buses that no wire joins"
        | "eines davon weglassen, oder die Anlage in zwei Busse teilen, die keine Ader verbindet",
    english:
        /// All numbers of the field are stated or taken, so this device cannot be told from another.
        ///
        /// Divide the site between more buildings, or choose a family with a wider range.
    german:
        /// Alle Nummern des Felds sind angegeben oder vergeben; dieses Gerät lässt sich nicht von einem anderen unterscheiden.
        ///
        /// Die Anlage auf mehr Gebäude verteilen, oder eine Familie mit größerem Bereich wählen.
}
