//! `missing-key`

code! {
    "missing-key"
    title: "A key that must be there is missing" | "Ein Schlüssel fehlt, der da sein muss",
    message:
        "the key \"{key}\" is missing< in {table}><, since {because} is given>"
        | "Der Schlüssel „{key}“ fehlt< ({table})>< wegen {because}>",
    hint: "<add {key} = {expected}><begin with {head} and under it {lines}; a whole file to begin with is written by: latchline new>"
        | "<{key} = {expected} ergänzen><mit {head} beginnen und darunter {lines}; eine ganze Datei zum Anfangen schreibt: latchline new>",
    english:
        /// Some values have no sensible default. `because` names the choice that makes the key necessary, such as the kind of a box.
        ///
        /// Example: a run without `to`. Add the key.
    german:
        /// Für manche Werte gibt es keine vernünftige Vorgabe. `because` nennt die Wahl, die den Schlüssel nötig macht, etwa die Art eines Verteilers.
        ///
        /// Beispiel: ein Strang ohne `to`. Den Schlüssel ergänzen.
}
