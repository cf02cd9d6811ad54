"""A reading as shown, the only thing a trainee ever gets."""

from dataclasses import asdict, dataclass, fields
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading, as stored and as shown.

    Parameters
    ----------
    measurement, technique : str
        What was taken and how.
    kind : str
        Of quantity.
    value : float, optional
        Rounded on the tool's own scale, then in SI; none for words. [-]
    decimals : int
        Of the tool's scale.
    words : str, optional
        What was seen, felt or said.
    """

    measurement: str
    technique: str
    kind: str
    value: float | None = None
    decimals: int = 0
    words: str | None = None

    def as_dict(self) -> dict[str, Any]:
        """Plain data for storage.

        Returns
        -------
        dict
            By field name.
        """
        return asdict(self)

    @staticmethod
    def from_dict(data: dict[str, Any]) -> "Reading":
        """Back from storage.

        Parameters
        ----------
        data : dict
            As ``as_dict`` gave it; unknown keys are left out.

        Returns
        -------
        Reading
        """
        known = {field.name for field in fields(Reading)}
        return Reading(**{key: value for key, value in data.items() if key in known})
