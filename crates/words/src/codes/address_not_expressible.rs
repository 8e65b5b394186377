//! `address-not-expressible`

code! {
    "address-not-expressible"
    title: "The switches cannot show this number" | "Die Schalter können diese Nummer nicht zeigen",
    short: "number cannot be set" | "Nummer nicht stellbar",
    message:
        "{element} has {field} number {number}, but its switches end at {highest}"
        | "{element} hat die Nummer {number} im Feld {field}, aber seine Schalter enden bei {highest}",
    hint:
        "give it a lower number, or take a model whose switches go as far"
        | "eine kleinere Nummer geben, oder ein Modell nehmen, dessen Schalter so weit reichen",
    measure:
        "Nothing with a meter: read the switches of the device, and the list of devices that the system finds."
        | "Nichts mit dem Messgerät: die Schalter des Geräts ablesen, und die Liste der Geräte, die das System findet.",
    english:
        /// The number lies in the family's range but beyond what its switches or digits can show. The catalogue's address field is wrong, or the number needs another device.
    german:
        /// Die Nummer liegt im Bereich der Familie, aber jenseits dessen, was ihre Schalter oder Ziffern zeigen können. Das Adressfeld des Katalogs ist falsch, oder die Nummer braucht ein anderes Gerät.
}
