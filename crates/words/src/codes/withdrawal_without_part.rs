//! `withdrawal-without-part`

code! {
    "withdrawal-without-part"
    title: "A withdrawn part is in no catalogue" | "Ein zurückgezogenes Teil steht in keinem Katalog",
    message: "no part is called \"{name}\", so nothing is withdrawn" | "Kein Teil heißt „{name}“, also wird nichts zurückgezogen",
    hint: "<did you mean {nearest:or}?>" | "<gemeint {nearest:or}?>",
    english:
        /// The setting Withdrawn parts names a part that no catalogue has, so nothing is replaced for it. A cable that only the installed site of
        /// `design --from` defines is known there, and is withdrawn all the same.
        ///
        /// Write the name as `latchline catalogue` lists it.
    german:
        /// Die Einstellung Withdrawn parts nennt ein Teil, das kein Katalog hat, also wird nichts dafür ersetzt. Eine Leitung, die nur die
        /// bestehende Anlage von `design --from` festlegt, ist dort bekannt und wird dennoch zurückgezogen.
        ///
        /// Den Namen so schreiben, wie `latchline catalogue` ihn führt.
}
