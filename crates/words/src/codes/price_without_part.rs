//! `price-without-part`

code! {
    "price-without-part"
    title: "An own price is of no part" | "Ein eigener Preis gehört zu keinem Teil",
    message:
        "no catalogue has a part \"{name}\": its own price has no effect"
        | "Kein Katalog hat ein Teil „{name}“: sein eigener Preis wirkt nicht",
    label: "no such part" | "gibt es nicht",
    hint: "<did you mean {nearest:or}?>" | "<gemeint {nearest:or}?>",
    english:
        /// A row of the survey's sheet Prices names a part that no catalogue has, so what is designed is reckoned with the catalogue's
        /// price. Write the name as `latchline catalogue` lists it, or take the row out.
        ///
        /// A cable that only the installed site of `design --from` defines is known there, and its price is used all the same.
    german:
        /// Eine Zeile des Blatts Prices der Aufnahme nennt ein Teil, das kein Katalog hat; geplant wird mit dem Preis des Katalogs.
        /// Den Namen schreiben, wie `latchline catalogue` ihn nennt, oder die Zeile entfernen.
        ///
        /// Eine Leitung, die nur die bestehende Anlage von `design --from` festlegt, ist dort bekannt, und ihr Preis wird trotzdem verwendet.
}
