"""What every written thing may carry."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, Field

from binder.farm.model.values import Line, Text, YesNo


class Thing(BaseModel):
    """What every written thing may carry: notes where it is needed, a picture, privacy."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, populate_by_name=True, defer_build=True
    )

    notes: Text | None = Field(
        default=None, description="What somebody who looks after it must know."
    )
    private: YesNo = Field(
        default=False, description="yes: print only, never on the site or phone."
    )
    picture: Line | None = Field(
        default=None,
        description="A file in pictures/ (PNG or JPEG).",
        examples=["creek-gate.jpg"],
    )
