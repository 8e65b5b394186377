//! `heater-missing`

code! {
    "heater-missing"
    title: "A heater that is in no load" | "Eine Heizung, die in keiner Last steckt",
    short: "heater in no load" | "Heizung nicht gezählt",
    message:
        "{element} needs a heater; none is stated for {station}"
        | "{element} rechnet mit einer Heizung; {station} gibt keine an",
    hint:
        "take a model with a heater, or state its heater_extra"
        | "ein Modell mit Heizung nehmen, oder sein heater_extra angeben",
    measure:
        "The current of the door station with its heater on and off."
        | "Den Strom der Türstation mit ihrer Heizung an und aus.",
    english:
        /// # What it checks
        /// Entrances with `heater = true` whose door station's model states no `heater_extra`: it has no heater, or
        /// what the heater draws is not known.
        ///
        /// # Why it matters
        /// A heater is the largest load of many a door station, and it is on in the night that decides over the
        /// battery. Without its figure it is in no load, and the verdict is too good.
        ///
        /// # Example
        /// `heater = true` at an audio door station without a heater.
        ///
        /// # What to do
        /// Take a model with a heater, state the `heater_extra` of the model, or leave `heater` out.
    german:
        /// # Was geprüft wird
        /// Eingänge mit `heater = true`, deren Türstationsmodell kein `heater_extra` nennt: Es hat keine Heizung,
        /// oder es ist nicht bekannt, was sie zieht.
        ///
        /// # Warum es zählt
        /// Eine Heizung ist bei mancher Türstation die größte Last, und sie läuft in der Nacht, die über die
        /// Batterie entscheidet. Ohne ihren Wert steckt sie in keiner Last, und das Ergebnis ist zu gut.
        ///
        /// # Beispiel
        /// `heater = true` an einer Audio-Türstation ohne Heizung.
        ///
        /// # Was zu tun ist
        /// Ein Modell mit Heizung nehmen, das `heater_extra` des Modells angeben, oder `heater` weglassen.
}
