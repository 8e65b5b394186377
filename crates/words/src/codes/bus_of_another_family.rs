//! `bus-of-another-family`

code! {
    "bus-of-another-family"
    title: "A bus of another family than the site's" | "Ein Bus einer anderen Familie als der der Anlage",
    short: "bus of another family" | "Bus anderer Familie",
    message:
        "the bus of {element} is of the family {family}, not of the site's {expected}"
        | "Der Bus von {element} gehört zur Gerätefamilie {family}, nicht zu {expected} wie die Anlage",
    label: "<{devices:device|devices} on it>" | "<{devices:Gerät|Geräte} daran>",
    hint:
        "put the other family's bus into a site file of its own"
        | "den Bus der anderen Familie in eine eigene Anlagendatei schreiben",
    english:
        /// # What it checks
        /// That the family of every bus is the family of the site, `family` under `[site]`.
        ///
        /// # Why it matters
        /// Counts, lengths, calls at once and addresses are judged by the site's family. On a bus of another
        /// family these judgements are those of the wrong datasheet; voltages and currents are not
        /// affected.
        ///
        /// # Example
        /// The garage has a small supply and two stations of an older family.
        ///
        /// # What to do
        /// Put the other family's bus into a site file of its own.
    german:
        /// # Was geprüft wird
        /// Dass die Gerätefamilie jedes Busses die der Anlage ist, `family` unter `[site]`.
        ///
        /// # Warum es zählt
        /// Anzahlen, Längen, gleichzeitige Rufe und Adressen werden nach der Familie der Anlage beurteilt. An einem
        /// Bus anderer Familie sind das Urteile nach dem falschen Datenblatt; Spannungen und Ströme sind nicht
        /// betroffen.
        ///
        /// # Beispiel
        /// Die Garage hat ein kleines Netzteil und zwei Stationen einer älteren Familie.
        ///
        /// # Was zu tun ist
        /// Den Bus der anderen Familie in eine eigene Anlagendatei schreiben.
}
