//! `two-main-entrances`

code! {
    "two-main-entrances"
    title: "Two entrances claim to be the main one" | "Zwei Eingänge wollen der Haupteingang sein",
    message:
        "{element} and {other} both claim to be the main entrance (number {number})"
        | "{element} und {other} wollen beide der Haupteingang sein (Nummer {number})",
    label: "a second main entrance" | "ein zweiter Haupteingang",
    hint: "make one of them secondary" | "einen davon zum Nebeneingang machen",
    measure:
        "Nothing with a meter: read the switches of both door stations."
        | "Nichts mit dem Messgerät: die Schalter beider Türstationen ablesen.",
    english:
        /// In this family one number means the main entrance, and only one entrance can have it (one per building, where the scheme has a building field). Make the other one secondary.
    german:
        /// In dieser Familie meint eine Nummer den Haupteingang, und nur ein Eingang kann sie haben (einer je Gebäude, wo der Plan ein Gebäudefeld hat). Den anderen zum Nebeneingang machen.
}
