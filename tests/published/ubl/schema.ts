/**
 * The schemas of UBL 2.1 for the documents that are written and read here, restated: for every aggregate its whole
 * sequence of children, in order, with how often each may stand.
 *
 * Source: OASIS Standard *Universal Business Language 2.1*, 4 November 2013, http://docs.oasis-open.org/ubl/os-UBL-2.1/:
 * `xsdrt/common/UBL-CommonAggregateComponents-2.1.xsd` (module generated 2013-10-31 17:17z), read type by type from a
 * public copy. The three documents from `xsdrt/maindoc/UBL-Order-2.1.xsd`, `UBL-OrderResponse-2.1.xsd` and
 * `UBL-DespatchAdvice-2.1.xsd` in the state of the fourth public review (2013-05-14), the last one before the standard
 * of which a copy could be had. Required attributes from the head of `UBL-UnqualifiedDataTypes-2.2.xsd`, which says that
 * they have been so since 2.0: currencyID of amounts, unitCode of measures; unitCode of quantities is optional.
 *
 * `ID!` once, `UUID?` at most once, `Note*` any number, `OrderLine+` one or more. Basic elements (cbc) come before
 * aggregates (cac) in every one of them.
 */
export interface Sequence {
	readonly basic: string;
	readonly aggregate: string;
}

/** By type, without its `Type` at the end. */
export const sequences: Readonly<Record<string, Sequence>> = {
	Order: {
		basic:
			'UBLVersionID? CustomizationID? ProfileID? ProfileExecutionID? ID! SalesOrderID? CopyIndicator? UUID? IssueDate! IssueTime? OrderTypeCode? Note* RequestedInvoiceCurrencyCode? DocumentCurrencyCode? PricingCurrencyCode? TaxCurrencyCode? CustomerReference? AccountingCostCode? AccountingCost? LineCountNumeric?',
		aggregate:
			'ValidityPeriod* QuotationDocumentReference? OrderDocumentReference* OriginatorDocumentReference? CatalogueReference? AdditionalDocumentReference* Contract* ProjectReference* Signature* BuyerCustomerParty! SellerSupplierParty! OriginatorCustomerParty? FreightForwarderParty? AccountingCustomerParty? Delivery* DeliveryTerms* PaymentMeans* PaymentTerms* TransactionConditions? AllowanceCharge* TaxExchangeRate? PricingExchangeRate? PaymentExchangeRate? DestinationCountry? TaxTotal* AnticipatedMonetaryTotal? OrderLine+'
	},
	OrderResponse: {
		basic:
			'UBLVersionID? CustomizationID? ProfileID? ProfileExecutionID? ID! SalesOrderID? CopyIndicator? UUID? IssueDate! IssueTime? OrderResponseCode? Note* DocumentCurrencyCode? PricingCurrencyCode? TaxCurrencyCode? TotalPackagesQuantity? GrossWeightMeasure? NetWeightMeasure? NetNetWeightMeasure? GrossVolumeMeasure? NetVolumeMeasure? CustomerReference? AccountingCostCode? AccountingCost? LineCountNumeric?',
		aggregate:
			'ValidityPeriod* OrderReference+ OrderDocumentReference* OriginatorDocumentReference? AdditionalDocumentReference* Contract* Signature* SellerSupplierParty! BuyerCustomerParty! OriginatorCustomerParty? FreightForwarderParty? AccountingSupplierParty? AccountingCustomerParty? Delivery* DeliveryTerms? PaymentMeans* PaymentTerms* AllowanceCharge* TransactionConditions? TaxExchangeRate? PricingExchangeRate? PaymentExchangeRate? DestinationCountry? TaxTotal* LegalMonetaryTotal? OrderLine*'
	},
	DespatchAdvice: {
		basic:
			'UBLVersionID? CustomizationID? ProfileID? ProfileExecutionID? ID! CopyIndicator? UUID? IssueDate! IssueTime? DocumentStatusCode? DespatchAdviceTypeCode? Note* LineCountNumeric?',
		aggregate:
			'OrderReference* AdditionalDocumentReference* Signature* DespatchSupplierParty! DeliveryCustomerParty! BuyerCustomerParty? SellerSupplierParty? OriginatorCustomerParty? Shipment? DespatchLine+'
	},
	CustomerParty: {
		basic: 'CustomerAssignedAccountID? SupplierAssignedAccountID? AdditionalAccountID*',
		aggregate: 'Party? DeliveryContact? AccountingContact? BuyerContact?'
	},
	SupplierParty: {
		basic: 'CustomerAssignedAccountID? AdditionalAccountID* DataSendingCapability?',
		aggregate: 'Party? DespatchContact? AccountingContact? SellerContact?'
	},
	Party: {
		basic:
			'MarkCareIndicator? MarkAttentionIndicator? WebsiteURI? LogoReferenceID? EndpointID? IndustryClassificationCode?',
		aggregate:
			'PartyIdentification* PartyName* Language? PostalAddress? PhysicalLocation? PartyTaxScheme* PartyLegalEntity* Contact? Person* AgentParty? ServiceProviderParty* PowerOfAttorney* FinancialAccount?'
	},
	PartyName: { basic: 'Name!', aggregate: '' },
	OrderReference: {
		basic: 'ID! SalesOrderID? CopyIndicator? UUID? IssueDate? IssueTime? CustomerReference? OrderTypeCode?',
		aggregate: 'DocumentReference?'
	},
	DocumentReference: {
		basic:
			'ID! CopyIndicator? UUID? IssueDate? IssueTime? DocumentTypeCode? DocumentType? XPath* LanguageID? LocaleCode? VersionID? DocumentStatusCode? DocumentDescription*',
		aggregate: 'Attachment? ValidityPeriod? IssuerParty? ResultOfVerification?'
	},
	ProjectReference: { basic: 'ID! UUID? IssueDate?', aggregate: 'WorkPhaseReference*' },
	WorkPhaseReference: {
		basic: 'ID? WorkPhaseCode? WorkPhase* ProgressPercent? StartDate? EndDate?',
		aggregate: 'WorkOrderDocumentReference*'
	},
	Delivery: {
		basic:
			'ID? Quantity? MinimumQuantity? MaximumQuantity? ActualDeliveryDate? ActualDeliveryTime? LatestDeliveryDate? LatestDeliveryTime? ReleaseID? TrackingID?',
		aggregate:
			'DeliveryAddress? DeliveryLocation? AlternativeDeliveryLocation? RequestedDeliveryPeriod? PromisedDeliveryPeriod? EstimatedDeliveryPeriod? CarrierParty? DeliveryParty? NotifyParty* Despatch? DeliveryTerms* MinimumDeliveryUnit? MaximumDeliveryUnit? Shipment?'
	},
	Period: {
		basic: 'StartDate? StartTime? EndDate? EndTime? DurationMeasure? DescriptionCode* Description*',
		aggregate: ''
	},
	MonetaryTotal: {
		basic:
			'LineExtensionAmount? TaxExclusiveAmount? TaxInclusiveAmount? AllowanceTotalAmount? ChargeTotalAmount? PrepaidAmount? PayableRoundingAmount? PayableAmount! PayableAlternativeAmount?',
		aggregate: ''
	},
	OrderLine: {
		basic: 'SubstitutionStatusCode? Note*',
		aggregate:
			'LineItem! SellerProposedSubstituteLineItem* SellerSubstitutedLineItem* BuyerProposedSubstituteLineItem* CatalogueLineReference? QuotationLineReference? OrderLineReference* DocumentReference*'
	},
	LineItem: {
		basic:
			'ID! SalesOrderID? UUID? Note* LineStatusCode? Quantity? LineExtensionAmount? TotalTaxAmount? MinimumQuantity? MaximumQuantity? MinimumBackorderQuantity? MaximumBackorderQuantity? InspectionMethodCode? PartialDeliveryIndicator? BackOrderAllowedIndicator? AccountingCostCode? AccountingCost? WarrantyInformation*',
		aggregate:
			'Delivery* DeliveryTerms? OriginatorParty? OrderedShipment* PricingReference? AllowanceCharge* Price? Item! SubLineItem* WarrantyValidityPeriod? WarrantyParty? TaxTotal* ItemPriceExtension? LineReference*'
	},
	OrderLineReference: {
		basic: 'LineID! SalesOrderLineID? UUID? LineStatusCode?',
		aggregate: 'OrderReference?'
	},
	Price: {
		basic: 'PriceAmount! BaseQuantity? PriceChangeReason* PriceTypeCode? PriceType? OrderableUnitFactorRate?',
		aggregate: 'ValidityPeriod* PriceList? AllowanceCharge* PricingExchangeRate?'
	},
	Item: {
		basic:
			'Description* PackQuantity? PackSizeNumeric? CatalogueIndicator? Name? HazardousRiskIndicator? AdditionalInformation* Keyword* BrandName* ModelName*',
		aggregate:
			'BuyersItemIdentification? SellersItemIdentification? ManufacturersItemIdentification* StandardItemIdentification? CatalogueItemIdentification? AdditionalItemIdentification* CatalogueDocumentReference? ItemSpecificationDocumentReference* OriginCountry? CommodityClassification* TransactionConditions* HazardousItem* ClassifiedTaxCategory* AdditionalItemProperty* ManufacturerParty* InformationContentProviderParty? OriginAddress* ItemInstance* Certificate* Dimension*'
	},
	ItemIdentification: {
		basic: 'ID! ExtendedID? BarcodeSymbologyID?',
		aggregate: 'PhysicalAttribute* MeasurementDimension* IssuerParty?'
	},
	ItemProperty: {
		basic: 'ID? Name! NameCode? TestMethod? Value? ValueQuantity? ValueQualifier* ImportanceCode? ListValue*',
		aggregate: 'UsabilityPeriod? ItemPropertyGroup* RangeDimension? ItemPropertyRange?'
	},
	Dimension: { basic: 'AttributeID! Measure? Description* MinimumMeasure? MaximumMeasure?', aggregate: '' },
	DespatchLine: {
		basic:
			'ID! UUID? Note* LineStatusCode? DeliveredQuantity? BackorderQuantity? BackorderReason* OutstandingQuantity? OutstandingReason* OversupplyQuantity?',
		aggregate: 'OrderLineReference+ DocumentReference* Item! Shipment*'
	},
	Shipment: {
		basic:
			'ID! ShippingPriorityLevelCode? HandlingCode? HandlingInstructions* Information* GrossWeightMeasure? NetWeightMeasure? NetNetWeightMeasure? GrossVolumeMeasure? NetVolumeMeasure? TotalGoodsItemQuantity? TotalTransportHandlingUnitQuantity? InsuranceValueAmount? DeclaredCustomsValueAmount? DeclaredForCarriageValueAmount? DeclaredStatisticsValueAmount? FreeOnBoardValueAmount? SpecialInstructions* DeliveryInstructions* SplitConsignmentIndicator? ConsignmentQuantity?',
		aggregate:
			'Consignment* GoodsItem* ShipmentStage* Delivery? TransportHandlingUnit* ReturnAddress? OriginAddress? FirstArrivalPortLocation? LastExitPortLocation? ExportCountry? FreightAllowanceCharge*'
	},
	TransportHandlingUnit: {
		basic:
			'ID? TransportHandlingUnitTypeCode? HandlingCode? HandlingInstructions* HazardousRiskIndicator? TotalGoodsItemQuantity? TotalPackageQuantity? DamageRemarks* ShippingMarks* TraceID?',
		aggregate:
			'HandlingUnitDespatchLine* ActualPackage* ReceivedHandlingUnitReceiptLine* TransportEquipment* TransportMeans* HazardousGoodsTransit* MeasurementDimension* MinimumTemperature? MaximumTemperature? GoodsItem* FloorSpaceMeasurementDimension? PalletSpaceMeasurementDimension? ShipmentDocumentReference* Status* CustomsDeclaration* ReferencedShipment* Package*'
	},
	Package: {
		basic:
			'ID? Quantity? ReturnableMaterialIndicator? PackageLevelCode? PackagingTypeCode? PackingMaterial* TraceID?',
		aggregate:
			'ContainedPackage* ContainingTransportEquipment? GoodsItem* MeasurementDimension* DeliveryUnit* Delivery? Pickup? Despatch?'
	}
};

/** Elements whose type has another name. Of the same schema. */
export const typesOfElements: Readonly<Record<string, string>> = {
	ActualPackage: 'Package',
	AdditionalDocumentReference: 'DocumentReference',
	AdditionalItemProperty: 'ItemProperty',
	AnticipatedMonetaryTotal: 'MonetaryTotal',
	BuyerCustomerParty: 'CustomerParty',
	BuyersItemIdentification: 'ItemIdentification',
	DeliveryCustomerParty: 'CustomerParty',
	DespatchSupplierParty: 'SupplierParty',
	HandlingUnitDespatchLine: 'DespatchLine',
	MeasurementDimension: 'Dimension',
	OrderDocumentReference: 'DocumentReference',
	PromisedDeliveryPeriod: 'Period',
	RequestedDeliveryPeriod: 'Period',
	SellerSubstitutedLineItem: 'LineItem',
	SellerSupplierParty: 'SupplierParty',
	SellersItemIdentification: 'ItemIdentification'
};

/**
 * LineStatusCode-2.0, `cl/xsdcl/default/LineStatusCode-2.0.xsd` of the same release, is the only list of codes that our
 * own orders use besides the units and the currency.
 */
export const lineStatusCodes: ReadonlySet<string> = new Set([
	'Added',
	'Cancelled',
	'Disputed',
	'NoStatus',
	'Revised'
]);

/**
 * Codes of units that an order may carry: UN/ECE Recommendation 20, revision 17 (each, pair, set, length, foot, inch,
 * millimetre), and Recommendation 21 with an X before it (tube), from a public restatement of both lists. TU, tube, is
 * not among them: it was taken out of Recommendation 20.
 */
export const unitCodes: ReadonlySet<string> = new Set(['EA', 'PR', 'SET', 'LN', 'FOT', 'INH', 'MMT', 'XTU']);
