using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.MeasuringSetup;
using EdgeLens.Records.Practices;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace EdgeLens.Store.Database;

/// <summary>The one schema of a book, alike in SQLite and PostgreSQL. Domain records are mapped as they are; the practice stands beside each row as a shadow column.</summary>
/// <param name="options">Which database.</param>
/// <param name="practice">Whose rows are seen.</param>
internal sealed class BookContext(DbContextOptions<BookContext> options, string practice) : DbContext(options)
{
    /// <summary>Shadow column of every entry: several practices may share a database.</summary>
    public const string PracticeCode = "PracticeCode";

    private readonly string _practice = practice;

    protected override void ConfigureConventions(ModelConfigurationBuilder conventions)
    {
        // Names and not numbers: a row must stay readable when an enumeration grows.
        conventions.Properties<VerdictKind>().HaveConversion<string>();
        conventions.Properties<FigureOrigin>().HaveConversion<string>();
        conventions.Properties<InspectionMoment>().HaveConversion<string>();
        conventions.Properties<InstrumentFamily>().HaveConversion<string>();
        conventions.Properties<InstrumentState>().HaveConversion<string>();
        conventions.Properties<EdgePart>().HaveConversion<string>();
        conventions.Properties<PhotographView>().HaveConversion<string>();
    }

    protected override void OnModelCreating(ModelBuilder model)
    {
        Entry<Practice>(model, "Practices");
        Entry<Site>(model, "Sites");
        Entry<Cassette>(model, "Cassettes");
        Entry<Instrument>(model, "Instruments").HasIndex(PracticeCode, nameof(Instrument.Code));
        OfInstrument<WorkingEnd>(model, "WorkingEnds");
        OfInstrument<EndTag>(model, "EndTags");
        OfInstrument<Placement>(model, "Placements");
        OfInstrument<StateChange>(model, "StateChanges");
        Entry<Procedure>(model, "Procedures");
        OfInstrument<RodTest>(model, "RodTests");
        Entry<Stone>(model, "Stones");
        Entry<StoneCare>(model, "StoneCare");
        OfInstrument<SharpeningRow>(model, "Sharpenings").HasIndex(PracticeCode, nameof(SharpeningRow.Stone), nameof(SharpeningRow.Day));
        Entry<LensProfileEntry>(model, "LensProfiles");
        Entry<Verification>(model, "Verifications");
        // Of an instrument's inspections the last of an end is asked for most often.
        OfInstrument<InspectionEntry>(model, "Inspections", nameof(InspectionEntry.End), nameof(InspectionEntry.Day)).HasOne<InspectionEntry>().WithMany().HasForeignKey(i => i.Remeasures).OnDelete(DeleteBehavior.Restrict);
        Entry<SignOff>(model, "SignOffs").HasOne<InspectionEntry>().WithMany().HasForeignKey(s => s.InspectionId).OnDelete(DeleteBehavior.Restrict);
        EntityTypeBuilder<SharpeningPair> pair = Entry<SharpeningPair>(model, "SharpeningPairs");
        pair.HasOne<SharpeningRow>().WithMany().HasForeignKey(p => p.SharpeningId).OnDelete(DeleteBehavior.Restrict);
        pair.HasOne<InspectionEntry>().WithMany().HasForeignKey(p => p.BeforeInspectionId).OnDelete(DeleteBehavior.Restrict);
        pair.HasOne<InspectionEntry>().WithMany().HasForeignKey(p => p.InspectionId).OnDelete(DeleteBehavior.Restrict);

        EntityTypeBuilder<FigureRow> figure = model.Entity<FigureRow>();
        figure.ToTable("Figures").HasKey(f => new { f.InspectionId, f.Position });
        figure.Ignore(f => f.Figure);
        figure.HasOne<InspectionEntry>().WithMany().HasForeignKey(f => f.InspectionId).OnDelete(DeleteBehavior.Restrict);
        EntityTypeBuilder<PhotographRow> photograph = model.Entity<PhotographRow>();
        photograph.ToTable("Photographs").HasKey(p => new { p.InspectionId, p.Position });
        photograph.HasIndex(p => p.Sha256);
        photograph.HasOne<InspectionEntry>().WithMany().HasForeignKey(p => p.InspectionId).OnDelete(DeleteBehavior.Restrict);
        EntityTypeBuilder<InspectionDocument> document = model.Entity<InspectionDocument>();
        document.ToTable("Documents").HasKey(d => d.InspectionId);
        document.Property(d => d.InspectionId).ValueGeneratedNever();
        document.HasOne<InspectionEntry>().WithOne().HasForeignKey<InspectionDocument>(d => d.InspectionId).OnDelete(DeleteBehavior.Restrict);
    }

    private EntityTypeBuilder<T> Entry<T>(ModelBuilder model, string table) where T : Entry
    {
        EntityTypeBuilder<T> entity = model.Entity<T>();
        entity.ToTable(table).HasKey(e => e.Id);
        entity.Property<string>(PracticeCode).IsRequired();
        // A row is corrected once; whoever corrects again corrects the correction.
        entity.HasIndex(e => e.Corrects).IsUnique();
        entity.HasOne<T>().WithOne().HasForeignKey<T>(e => e.Corrects).OnDelete(DeleteBehavior.Restrict);
        entity.HasQueryFilter(e => EF.Property<string>(e, PracticeCode) == _practice);
        // The last id of a practice tells whether anything was entered since.
        entity.HasIndex(PracticeCode, nameof(Records.Entries.Entry.Id));
        return entity;
    }

    private EntityTypeBuilder<T> OfInstrument<T>(ModelBuilder model, string table, params string[] indexedToo) where T : InstrumentEntry
    {
        EntityTypeBuilder<T> entity = Entry<T>(model, table);
        entity.HasIndex([PracticeCode, nameof(InstrumentEntry.Instrument), .. indexedToo]);
        return entity;
    }
}
