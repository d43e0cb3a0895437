namespace EdgeLens.Web.People;

/// <summary>What a member of staff may do here.</summary>
public enum Role
{
    /// <summary>Photographs instruments and sees what was found.</summary>
    Nurse,

    /// <summary>All that a nurse may; decides on verdicts; sees the practice page.</summary>
    LeadClinician,

    /// <summary>Sees inspections and the practice page; neither photographs nor decides.</summary>
    Manager,
}
