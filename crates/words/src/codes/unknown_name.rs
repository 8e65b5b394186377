//! `unknown-name`

code! {
    "unknown-name"
    title: "Nothing has this name" | "Nichts hat diesen Namen",
    message: "there is no {kind} named \"{name}\"<, nor {more:further name|further names} of the range>"
        | "Nichts heißt hier „{name}“ ({kind})<, auch {more:weiterer Name|weitere Namen} der Reihe nicht>",
    label: "no such {kind}" | "gibt es nicht: {kind}",
    hint:
        "<did you mean {nearest:or}?><there is {choices}><nothing of the kind is there yet: write it under {under}>< {dwelling} has {stations:station|stations}; further ones are written in its extensions>"
        | "<gemeint {nearest:or}?><es gibt {choices}><noch ist nichts davon da: unter {under} eintragen>< {dwelling} hat {stations:Station|Stationen}; weitere stehen in ihren extensions>",
    english:
        /// The value refers to something that is defined nowhere. `kind` says what was looked for: family, supply model, box model, station model, cable, lock model, accessory, building, floor, core, or what the keys from, to and calls take.
        ///
        /// Example: `cable = "pair-08"` where the catalogue has pair-0.8. The nearest names are shown.
    german:
        /// Der Wert nennt etwas, das nirgends definiert ist. `kind` sagt, was gesucht wurde: Gerätefamilie, Netzteil-, Verteiler- oder Stationsmodell, Leitung, Schlossmodell, Zubehör, Gebäude, Geschoss, Treppenhaus, oder was die Schlüssel from, to und calls nehmen.
        ///
        /// Beispiel: `cable = "pair-08"`, wo der Katalog pair-0.8 hat. Die nächstliegenden Namen werden gezeigt.
}
