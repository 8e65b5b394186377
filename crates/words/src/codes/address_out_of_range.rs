//! `address-out-of-range`

code! {
    "address-out-of-range"
    title: "A number lies outside the family's range" | "Eine Nummer liegt außerhalb des Bereichs der Familie",
    short: "number out of range" | "Nummer außerhalb",
    message:
        "{element} would have {field} number {number}, but the family has {first} to {last}"
        | "{element} hätte die Nummer {number} im Feld {field}, aber die Gerätefamilie hat {first} bis {last}",
    hint: "choose a number within the range" | "eine Nummer im Bereich wählen",
    english:
        /// The family's address scheme has no such number.
        ///
        /// Example: dwelling number 120 where the scheme ends at 99. Choose a number within the range, or divide the dwellings between more buildings.
    german:
        /// Der Adressplan der Gerätefamilie hat keine solche Nummer.
        ///
        /// Beispiel: Wohnungsnummer 120, wo der Plan bei 99 endet. Eine Nummer im Bereich wählen, oder die Wohnungen auf mehr Gebäude verteilen.
}
