//! `address-not-expressible`

code! {
    "address-not-expressible"
    title: "The switches cannot show this number" | "Nummer nicht einstellbar",
    message:
        "{element} has {field} number {number}, but its switches end at {highest}"
        | "{element} hat die Nummer {number} im Feld {field}, aber seine Schalter enden bei {highest}",
    english:
        /// The number lies in the family's range but beyond what its switches or digits can show. The catalogue's address field is wrong, or the number needs another device.
    german:
        /// Die Nummer liegt im Bereich der Familie, aber jenseits dessen, was ihre Schalter oder Ziffern zeigen können. Das Adressfeld des Katalogs ist falsch, oder die Nummer braucht ein anderes Gerät.
}
