//! `address-reserved`

code! {
    "address-reserved"
    title: "A number is reserved" | "Eine Nummer ist reserviert",
    short: "number reserved" | "Nummer vergeben",
    message:
        "{element} has {field} number {number}, which the system keeps for itself"
        | "{element} hat die Nummer {number} im Feld {field}, die sich die Anlage selbst vorbehält",
    label: "reserved" | "reserviert",
    hint: "choose another number" | "eine andere Nummer wählen",
    measure:
        "Nothing with a meter: read the switches of the device, and the list of devices that the system finds."
        | "Nichts mit dem Messgerät: die Schalter des Geräts ablesen, und die Liste der Geräte, die das System findet.",
    english:
        /// The system keeps this number for itself, so a device that has it would not be reached.
        ///
        /// Choose another number.
    german:
        /// Die Anlage behält sich diese Nummer vor; ein Gerät mit ihr würde nicht erreicht.
        ///
        /// Eine andere Nummer wählen.
}
