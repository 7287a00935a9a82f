//! Reads a struct from a map that has two more keys than the struct.

use serde::de::value::StringDeserializer;
use serde::de::{
    DeserializeSeed, Deserializer, IgnoredAny, IntoDeserializer as _, MapAccess, Visitor,
};
use serde::forward_to_deserialize_any;

/// A deserializer that hides `kind` and `schema`, which every record's text has
/// and no record's type needs, so that records can refuse unknown fields.
pub(super) struct WithoutHead<D>(pub(super) D);

impl<'de, D: Deserializer<'de>> Deserializer<'de> for WithoutHead<D> {
    type Error = D::Error;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, D::Error> {
        self.0.deserialize_map(HeadSkipper(visitor))
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string
        bytes byte_buf option unit unit_struct newtype_struct seq tuple
        tuple_struct map struct enum identifier ignored_any
    }
}

struct HeadSkipper<V>(V);

impl<'de, V: Visitor<'de>> Visitor<'de> for HeadSkipper<V> {
    type Value = V::Value;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.expecting(f)
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<V::Value, A::Error> {
        self.0.visit_map(SkippingMap(map))
    }
}

struct SkippingMap<A>(A);

impl<'de, A: MapAccess<'de>> MapAccess<'de> for SkippingMap<A> {
    type Error = A::Error;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, A::Error> {
        while let Some(key) = self.0.next_key::<String>()? {
            if key == "kind" || key == "schema" {
                self.0.next_value::<IgnoredAny>()?;
                continue;
            }
            let key: StringDeserializer<A::Error> = key.into_deserializer();
            return seed.deserialize(key).map(Some);
        }
        Ok(None)
    }

    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, A::Error> {
        self.0.next_value_seed(seed)
    }
}
