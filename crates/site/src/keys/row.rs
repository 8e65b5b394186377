//! One row a key: from it come the field, the line that reads it, the schema and the reference page.

/// Declares a table of keys together with the struct that holds it and the function that reads it.
///
/// ```text
/// keys! {
///     /// A DC power supply unit.                                the table, for pages and rustdoc
///     pub struct SupplyModel = SUPPLY_MODEL SupplyModel after PART_KEYS;
///     try read(record, provenance, head: PartHead);             what the reader is given besides
///
///     /// Name, title, source, price.
///     field head: PartHead = head;                              a field without a key of its own
///     /// Open-circuit output voltage.
///     voltage: Sourced<Voltage> = must(VOLTAGE).bears(Bears::OnFlow);
///     /// Number of output terminal pairs. Without it 1.
///     outputs: Sourced<u32> = or(Kind::Integer(1, 64), 1);
///     /// Own consumption, as the file calls it.
///     own as "consumption": Option<Sourced<LoadValue>> = may(Kind::Load);
///     /// Built-in or attached battery.
///     battery: Option<Battery> = may(Kind::Table(&BATTERY)), by battery(record)?;   a hook reads it
///     /// Conductor class.
///     key class = may(Kind::Integer(1, 5));                     a key that a hook reads into another field
/// }
/// ```
///
/// What the row says of a key that is left out: `must` it be there, is it not known without it (`may`), or is a usual value
/// taken: `or` where leaving it out says so (no lock output, false), `or_known` where that is even as good as the file's own
/// word, `or_assumed` where the value is a guess, which is told of every verdict that it bears on. `list` is a list, empty without
/// it. Fields are read in order; a hook may use those before it. `read` without `try` is for tables in which nothing must be
/// there, or all that must be is read by hooks.
macro_rules! keys {
    (
        $(#[doc = $doc:literal])+
        $(#[derive($derive:ident)])?
        $visible:vis struct $Struct:ident = $TABLE:ident $table:ident $(after $shared:ident)?;
        try read($record:ident, $provenance:ident $(, $given:ident: $given_type:ty)*);
        $($rows:tt)*
    ) => {
        keys! {
            @rows
            {
                [$($doc)+] [$($derive)?] [$visible] $Struct $TABLE $table [$($shared)?]
                [Option<Self>] [Some] $record $provenance [$($given: $given_type,)*]
            }
            [] [] []
            $($rows)*
        }
    };
    (
        $(#[doc = $doc:literal])+
        $(#[derive($derive:ident)])?
        $visible:vis struct $Struct:ident = $TABLE:ident $table:ident $(after $shared:ident)?;
        read($record:ident, $provenance:ident $(, $given:ident: $given_type:ty)*);
        $($rows:tt)*
    ) => {
        keys! {
            @rows
            {
                [$($doc)+] [$($derive)?] [$visible] $Struct $TABLE $table [$($shared)?]
                [Self] [std::convert::identity] $record $provenance [$($given: $given_type,)*]
            }
            [] [] []
            $($rows)*
        }
    };

    // A key with its field.
    (
        @rows $head:tt [$($fields:tt)*] [$($keys:tt)*] [$($reads:tt)*]
        $(#[doc = $doc:literal])+
        $field:ident $(as $name:literal)?: $type:ty = $need:ident($kind:expr $(, $usual:expr)?)
            $(.$method:ident($($argument:expr)?))* $(, by $hook:expr)?;
        $($rest:tt)*
    ) => {
        keys! {
            @rows $head
            [$($fields)* $(#[doc = $doc])+ pub $field: $type,]
            [$($keys)* $crate::keys::KeySpec::$need(
                keys!(@name $field $($name)?), $kind, concat!($($doc),+).trim_ascii(),
            )$(.$method($($argument)?))*,]
            [$($reads)* [$field $type] [$need $($usual)?] [keys!(@name $field $($name)?)] [$($hook)?];]
            $($rest)*
        }
    };
    // A key that a hook reads into the field of another.
    (
        @rows $head:tt [$($fields:tt)*] [$($keys:tt)*] [$($reads:tt)*]
        $(#[doc = $doc:literal])+
        key $field:ident $(as $name:literal)? = $need:ident($kind:expr)
            $(.$method:ident($($argument:expr)?))*;
        $($rest:tt)*
    ) => {
        keys! {
            @rows $head
            [$($fields)*]
            [$($keys)* $crate::keys::KeySpec::$need(
                keys!(@name $field $($name)?), $kind, concat!($($doc),+).trim_ascii(),
            )$(.$method($($argument)?))*,]
            [$($reads)*]
            $($rest)*
        }
    };
    // A field without a key.
    (
        @rows $head:tt [$($fields:tt)*] [$($keys:tt)*] [$($reads:tt)*]
        $(#[doc = $doc:literal])+
        field $field:ident: $type:ty = $value:expr;
        $($rest:tt)*
    ) => {
        keys! {
            @rows $head
            [$($fields)* $(#[doc = $doc])+ pub $field: $type,]
            [$($keys)*]
            [$($reads)* [$field $type] [field] [""] [$value];]
            $($rest)*
        }
    };
    // All rows are read.
    (
        @rows
        {
            [$($doc:literal)+] [$($derive:ident)?] [$visible:vis] $Struct:ident $TABLE:ident $table:ident [$($shared:ident)?]
            [$result:ty] [$($done:tt)*] $record:ident $provenance:ident [$($given:ident: $given_type:ty,)*]
        }
        [$($fields:tt)*] [$($keys:tt)*] [$([$field:ident $type:ty] $usual:tt [$name:expr] $hook:tt;)*]
    ) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, PartialEq $(, $derive)?)]
        $visible struct $Struct {
            $($fields)*
        }

        #[doc = concat!("Keys of ", stringify!($Struct), ".")]
        $visible static $TABLE: $crate::keys::TableSpec = {
            static OWN: &[$crate::keys::KeySpec] = &[$($keys)*];
            $crate::keys::TableSpec {
                name: latchline_words::reading::Thing::$table,
                doc: concat!($($doc),+).trim_ascii(),
                keys: keys!(@all OWN $($shared)?),
            }
        };

        impl $Struct {
            /// Reads its table; `provenance` is that of values of which the file says nothing else.
            #[allow(clippy::too_many_arguments, unused_variables, reason = "tables differ in what their readers are given")]
            pub(crate) fn read(
                $record: &$crate::parse::Record<'_>,
                $provenance: latchline_finding::Provenance,
                $($given: $given_type),*
            ) -> $result {
                $(let $field: $type = keys!(@read $record $provenance $usual $name; $hook);)*
                $($done)*(Self { $($field),* })
            }
        }
    };

    (@all $own:ident) => { $own };
    (@all $own:ident $shared:ident) => {{
        static ALL: [$crate::keys::KeySpec; $shared.len() + $own.len()] = $crate::keys::joined($shared, $own);
        &ALL
    }};

    (@name $field:ident) => { stringify!($field) };
    (@name $field:ident $name:literal) => { $name };

    (@read $record:ident $provenance:ident [$($usual:tt)*] $name:expr; [$hook:expr]) => { $hook };
    (@read $record:ident $provenance:ident [must] $name:expr; []) => { $record.read($name, $provenance)? };
    (@read $record:ident $provenance:ident [may] $name:expr; []) => { $record.read($name, $provenance) };
    (@read $record:ident $provenance:ident [list] $name:expr; []) => { $record.items($name, $provenance) };
    (@read $record:ident $provenance:ident [or $usual:expr] $name:expr; []) => {
        $record.read($name, $provenance).unwrap_or_else(|| $crate::parse::Readable::usual($usual))
    };
    (@read $record:ident $provenance:ident [or_known $usual:expr] $name:expr; []) => {
        $record
            .read($name, $provenance)
            .unwrap_or_else(|| latchline_finding::Sourced::new($usual, latchline_finding::Origin::None, $provenance))
    };
    (@read $record:ident $provenance:ident [or_assumed $usual:expr] $name:expr; []) => {
        $record.or_assumed($name, $record.read($name, $provenance), $usual)
    };
}

/// Declares the words that a key may say, with what they mean.
macro_rules! choices {
    (
        $(#[doc = $doc:literal])+
        $visible:vis enum $Enum:ident {
            $($(#[doc = $variant_doc:literal])+ $Variant:ident = $word:literal,)+
        }
    ) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        $visible enum $Enum {
            $($(#[doc = $variant_doc])+ $Variant,)+
        }

        impl $Enum {
            /// Its words in the files.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// Its word in the files.
            pub fn word(self) -> &'static str {
                match self {
                    $($Enum::$Variant => $word,)+
                }
            }
        }

        impl $crate::parse::FromValue for $Enum {
            fn from_value(value: &$crate::parse::Value<'_>) -> Option<Self> {
                match value {
                    $($crate::parse::Value::Text($word) => Some($Enum::$Variant),)+
                    _ => None,
                }
            }
        }

        $crate::parse::plain!($Enum);
    };
}

pub(crate) use {choices, keys};
