//! `extension-without-room`

code! {
    "extension-without-room"
    title: "A dwelling has more stations than the family can number" | "Eine Wohnung hat mehr Stationen, als die Familie nummerieren kann",
    message:
        "{element}: the dwelling has {stations:station|stations}, but the family can number {room}"
        | "{element}: Die Wohnung hat {stations:Station|Stationen}, die Gerätefamilie kann {room} nummerieren",
    hint:
        "leave a station of the dwelling out: it can have no number of its own"
        | "eine Station der Wohnung weglassen: Sie kann keine eigene Nummer haben",
    measure:
        "Nothing with a meter: count the stations of the dwelling and read their switches."
        | "Nichts mit dem Messgerät: die Stationen der Wohnung zählen und ihre Schalter ablesen.",
    english:
        /// The extension field has no number left for this station, so it could not be called apart from the others.
        ///
        /// Take an extension away, or choose another family.
    german:
        /// Das Feld der Nebenstellen hat für diese Station keine Nummer mehr; sie ließe sich nicht für sich rufen.
        ///
        /// Eine Nebenstelle wegnehmen, oder eine andere Familie wählen.
}
